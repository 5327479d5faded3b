package measure

import (
	"math/big"
	"strings"
)

// Kind is what a number with a unit measures.
type Kind string

// The kinds of quantity that people say in a workshop.
const (
	KindNumber      Kind = "number"
	KindLength      Kind = "length"
	KindArea        Kind = "area"
	KindVolume      Kind = "volume"
	KindMass        Kind = "mass"
	KindAngle       Kind = "angle"
	KindTemperature Kind = "temperature"
	KindPercent     Kind = "percent"
	KindDuration    Kind = "duration"
	KindForce       Kind = "force"
	KindPressure    Kind = "pressure"
)

// Unit is one unit of a kind. A value in the unit times Factor plus Offset is the value in
// the base unit of the kind: mm, m2, l, kg, deg, c, pct, min, n, mpa.
type Unit struct {
	Symbol string
	Kind   Kind
	Factor *big.Rat
	Offset *big.Rat // of temperatures only, else nil
	Names  []string // as people write it, lower case; a name of several words has single spaces
}

// Base converts a value in the unit to the base unit of its kind, exactly.
func (u *Unit) Base(v *big.Rat) *big.Rat {
	r := new(big.Rat).Mul(v, u.Factor)
	if u.Offset != nil {
		r.Add(r, u.Offset)
	}
	return r
}

// Difference converts a difference of two values in the unit to the base unit: 70 °F of
// warming is 38.9 °C, not 21.
func (u *Unit) Difference(v *big.Rat) *big.Rat { return new(big.Rat).Mul(v, u.Factor) }

// FromBase converts a value in the base unit of the kind to the unit, exactly.
func (u *Unit) FromBase(v *big.Rat) *big.Rat {
	r := new(big.Rat).Set(v)
	if u.Offset != nil {
		r.Sub(r, u.Offset)
	}
	return r.Quo(r, u.Factor)
}

func unit(symbol string, kind Kind, factor string, names ...string) Unit {
	f, ok := new(big.Rat).SetString(factor)
	if !ok {
		panic("measure: bad factor of " + symbol)
	}
	return Unit{Symbol: symbol, Kind: kind, Factor: f, Names: append(names, symbol)}
}

func offset(u Unit, o string) Unit {
	u.Offset, _ = new(big.Rat).SetString(o)
	return u
}

// units lists every unit once. Factors: the inch is 25.4 mm, the pound 0.45359237 kg, the US
// gallon 231 cubic inches, the imperial gallon 4.54609 l, all exact by definition.
var units = []Unit{
	unit("mm", KindLength, "1", "millimetre", "millimeter", "mil", "mill", "milimetre", "milimeter", "mms"),
	unit("cm", KindLength, "10", "centimetre", "centimeter", "cms", "centimetres", "zentimeter"),
	unit("dm", KindLength, "100", "decimetre", "decimeter"),
	unit("m", KindLength, "1000", "metre", "meter", "mtr", "mtrs"),
	unit("km", KindLength, "1000000", "kilometre", "kilometer", "kms"),
	unit("um", KindLength, "1/1000", "micron", "micrometre", "micrometer", "µm"),
	unit("in", KindLength, "25.4", "inch", "inches", "\"", "ins"),
	unit("thou", KindLength, "0.0254", "thousandth"),
	unit("ft", KindLength, "304.8", "foot", "feet", "'"),
	unit("yd", KindLength, "914.4", "yard"),
	unit("mile", KindLength, "1609344"),
	unit("mm2", KindArea, "1/1000000", "square millimetre", "square millimeter", "sq mm", "sqmm"),
	unit("cm2", KindArea, "1/10000", "square centimetre", "square centimeter", "sq cm", "sqcm"),
	unit("m2", KindArea, "1", "square metre", "square meter", "sq m", "sqm", "sq metre", "sq meter", "square m", "m squared"),
	unit("in2", KindArea, "0.00064516", "square inch", "square inches", "sq in", "sq inch", "sq inches"),
	unit("ft2", KindArea, "0.09290304", "square foot", "square feet", "sq ft", "sqft", "sq foot", "sq feet"),
	unit("yd2", KindArea, "0.83612736", "square yard", "sq yd"),
	unit("ml", KindVolume, "1/1000", "millilitre", "milliliter", "cc"),
	unit("cl", KindVolume, "1/100", "centilitre", "centiliter"),
	unit("l", KindVolume, "1", "litre", "liter", "ltr", "ltrs"),
	unit("m3", KindVolume, "1000", "cubic metre", "cubic meter", "cube", "cu m", "cubic m", "cbm", "cubes"),
	unit("ft3", KindVolume, "28.316846592", "cubic foot", "cubic feet", "cu ft"),
	unit("bf", KindVolume, "2.359737216", "board foot", "board feet", "bd ft", "bdft", "fbm"),
	unit("gal", KindVolume, "3.785411784", "us gallon", "gallon"),
	unit("pt", KindVolume, "0.56826125", "pint"),
	unit("qt", KindVolume, "0.946352946", "quart"),
	unit("g", KindMass, "1/1000", "gram", "gramme", "gm", "gr", "grams"),
	unit("kg", KindMass, "1", "kilo", "kilogram", "kilogramme", "kgs"),
	unit("t", KindMass, "1000", "tonne"),
	unit("oz", KindMass, "0.028349523125", "ounce"),
	unit("lb", KindMass, "0.45359237", "pound", "lbs"),
	unit("stone", KindMass, "6.35029318"),
	unit("deg", KindAngle, "1", "degree", "°", "degs", "º"),
	unit("c", KindTemperature, "1", "°c", "celsius", "centigrade", "degree c", "degree celsius", "degree centigrade", "deg c", "deg celsius", "° c", "º c", "ºc"),
	offset(unit("f", KindTemperature, "5/9", "°f", "fahrenheit", "degree f", "degree fahrenheit", "deg f", "deg fahrenheit", "° f", "º f", "ºf"), "-160/9"),
	unit("pct", KindPercent, "1", "%", "percent", "per cent", "pc", "prozent", "procent", "percents"),
	unit("s", KindDuration, "1/60", "second", "sec", "secs"),
	unit("min", KindDuration, "1", "minute", "mins", "minutes"),
	unit("h", KindDuration, "60", "hour", "hr", "hrs"),
	unit("day", KindDuration, "1440"),
	unit("week", KindDuration, "10080", "wk", "wks"),
	unit("n", KindForce, "1", "newton"),
	unit("kn", KindForce, "1000", "kilonewton"),
	unit("lbf", KindForce, "4.4482216152605", "pound force"),
	unit("mpa", KindPressure, "1", "megapascal", "n/mm2"),
	unit("gpa", KindPressure, "1000", "gigapascal"),
	unit("psi", KindPressure, "0.006894757293168361"),
}

// byName finds a unit by any of its names, in the singular or the plural.
var byName = func() map[string]*Unit {
	m := map[string]*Unit{}
	for i := range units {
		for _, n := range units[i].Names {
			m[n] = &units[i]
		}
	}
	return m
}()

// UnitNamed finds a unit by its symbol or by a name as people write it, in any case, in the
// singular or the plural ("Millimetres", "sq ft", "°C").
func UnitNamed(name string) (*Unit, bool) {
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	if u, ok := byName[name]; ok {
		return u, true
	}
	words := strings.Split(name, " ")
	for i, w := range words {
		words[i] = singular(w)
	}
	u, ok := byName[strings.Join(words, " ")]
	return u, ok
}

func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && w != "celsius" {
		return strings.TrimSuffix(w, "s")
	}
	return w
}

// Units lists every unit that is understood.
func Units() []Unit { return append([]Unit(nil), units...) }
