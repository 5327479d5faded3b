package tables

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"golang.org/x/text/cases"

	"fettle/calc/measure"
)

// text gives a cell, or "" where the table has no such column or the line ends before it.
func (t *table) text(r row, column string) string {
	i, ok := t.columns[column]
	if !ok || i >= len(r.cells) {
		return ""
	}
	return r.cells[i]
}

// longestName is how long a name may be: more is a cell that slipped.
const longestName = 80

func (t *table) name(r row, column, name string) error {
	switch {
	case name == "":
		return t.fault(r, column, "the name is missing")
	case len([]rune(name)) > longestName:
		return t.fault(r, column, "%s is too long for a name; %d letters are enough", quote(name), longestName)
	}
	return nil
}

// once refuses a name that an earlier line has.
func (t *table) once(seen map[string]int, r row, name string) error {
	if name == "" {
		return nil
	}
	key := cases.Fold().String(name)
	if before, twice := seen[key]; twice {
		return t.fault(r, "name", "%s stands in line %d already; give each line a name of its own", quote(name), before)
	}
	seen[key] = r.line
	return nil
}

// quantity reads how many; where they may be left out, a table without them means one of each.
func (t *table) quantity(r row, optional bool) (int, error) {
	text := t.text(r, "quantity")
	if _, has := t.columns["quantity"]; optional && !has {
		return 1, nil
	}
	n, err := t.number(r, "quantity", text, new(big.Rat).SetInt64(MostPieces))
	if err != nil {
		return 0, err
	}
	switch {
	case n.Sign() < 0:
		return 0, t.fault(r, "quantity", "%s is below nought", quote(text))
	case n.Sign() == 0:
		return 0, t.fault(r, "quantity", "nought pieces can't be; leave the line out")
	case !n.IsInt():
		return 0, t.fault(r, "quantity", "%s is no whole number", quote(text))
	case n.Cmp(new(big.Rat).SetInt64(MostPieces)) > 0:
		return 0, t.fault(r, "quantity", "%s is more than the %d that one line may have", quote(text), MostPieces)
	}
	return int(n.Num().Int64()), nil
}

// size reads a length above nought, or from nought on where zero may be.
func (t *table) size(r row, column string, most measure.Length, zero bool) (l measure.Length, err error) {
	text := t.text(r, column)
	number, unit := withoutUnit(text)
	if unit == nil {
		unit = millimetres
		if u, ok := unitNamed(t.units[column]); ok {
			unit = u
		}
	}
	limit := new(big.Rat).Quo(new(big.Rat).SetInt64(int64(most)), new(big.Rat).SetInt64(int64(measure.Millimetre)))
	n := fraction(number, unit)
	if n == nil {
		if n, err = t.number(r, column, number, unit.FromBase(limit)); err != nil {
			return 0, err
		}
	}
	l, err = measure.Times(unit.Base(n), measure.Millimetre)
	switch {
	case n.Sign() < 0:
		return 0, t.fault(r, column, "%s is below nought", quote(text))
	case err == nil && l == 0 && !zero:
		return 0, t.fault(r, column, "nought can't be")
	case err != nil || l > most:
		return 0, t.fault(r, column, "%s is more than %s mm, which can't be", quote(text), mm(most))
	}
	return l, nil
}

// price reads the price of one, which may be left empty.
func (t *table) price(r row) (price float64, unpriced bool, err error) {
	text := t.text(r, "price")
	number := strings.TrimSpace(strings.Trim(text, "€£$ "))
	if number == "" || number == "-" || number == "–" {
		return 0, true, nil
	}
	n, err := t.number(r, "price", number, new(big.Rat).SetInt64(dearest))
	if err != nil {
		return 0, false, err
	}
	price, _ = n.Float64()
	switch {
	case price < 0:
		return 0, false, t.fault(r, "price", "%s is below nought", quote(text))
	case price > dearest:
		return 0, false, t.fault(r, "price", "%s is too much for one board", quote(text))
	}
	return price, false, nil
}

// boardOf finds the board that a fault is on: by its name as it stands, else by the name before
// a # with the number of the copy.
func (t *table) boardOf(r row, boards []BoardRow) (BoardRow, int, error) {
	text := t.text(r, "board")
	if err := t.name(r, "board", text); err != nil {
		return BoardRow{}, 0, err
	}
	if b, ok := boardNamed(boards, text); ok {
		return b, 1, nil
	}
	name, number, numbered := cutLast(text, "#")
	b, ok := boardNamed(boards, strings.TrimSpace(name))
	if !numbered || !ok {
		return b, 0, t.fault(r, "board", "there is no board called %s", quote(text))
	}
	n, err := strconv.Atoi(strings.TrimSpace(number))
	switch {
	case err != nil || n < 1:
		return b, 0, t.fault(r, "board", "%s has no number behind the #", quote(text))
	case n > b.Quantity:
		return b, 0, t.fault(r, "board", "there are only %d of %s", b.Quantity, quote(b.Name))
	}
	return b, n, nil
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

func boardNamed(boards []BoardRow, name string) (BoardRow, bool) {
	key := cases.Fold().String(name)
	for _, b := range boards {
		if cases.Fold().String(b.Name) == key {
			return b, true
		}
	}
	return BoardRow{}, false
}

var millimetres, _ = measure.UnitNamed("mm")

// unitNamed finds a unit of length.
func unitNamed(name string) (*measure.Unit, bool) {
	u, ok := measure.UnitNamed(name)
	return u, ok && u.Kind == measure.KindLength && name != ""
}

var unitBehind = regexp.MustCompile(`^(.*[0-9½¼¾]) ?([a-zµ]+|"|''|″)\.?$`)

// withoutUnit takes a unit of length from behind a number.
func withoutUnit(text string) (string, *measure.Unit) {
	m := unitBehind.FindStringSubmatch(strings.ToLower(text))
	if m == nil {
		return text, nil
	}
	if m[2] == "''" || m[2] == "″" {
		m[2] = `"`
	}
	u, ok := unitNamed(m[2])
	if !ok {
		return text, nil
	}
	return m[1], u
}

var (
	plainNumber    = regexp.MustCompile(`^[+-]?[0-9]{1,15}([.,][0-9]{1,15})?$|^[+-]?[.,][0-9]{1,15}$`)
	oneGroup       = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}$`)
	spacedGroups   = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(?: [0-9]{3})+(?:[.,][0-9]{1,6})?$`)
	commaThousands = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(,[0-9]{3})+\.[0-9]{1,6}$`)
	pointThousands = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(\.[0-9]{3})+,[0-9]{1,6}$`)
	inchFraction   = regexp.MustCompile(`^(?:([0-9]{1,5})[ -])?([0-9]{1,3})/([0-9]{1,3})$`)
)

// number reads a cell. One separator before three digits can be a thousand or a decimal: it is a
// decimal where the thousand would be beyond the most that the column may hold, else it is
// refused.
func (t *table) number(r row, column, text string, most *big.Rat) (*big.Rat, error) {
	text = strings.ReplaceAll(text, "−", "-")
	switch {
	case text == "":
		return nil, t.fault(r, column, "the number is missing")
	case oneGroup.MatchString(text):
		whole := strings.NewReplacer(",", "", ".", "").Replace(text)
		if n := rational(whole); new(big.Rat).Abs(n).Cmp(most) <= 0 {
			return nil, t.fault(r, column, "%s may be %s or a number with three decimals; write it without the mark, or with other decimals", quote(text), whole)
		}
	case commaThousands.MatchString(text):
		text = strings.ReplaceAll(text, ",", "")
	case pointThousands.MatchString(text):
		text = strings.ReplaceAll(text, ".", "")
	case spacedGroups.MatchString(text):
		text = strings.ReplaceAll(text, " ", "")
	}
	if !plainNumber.MatchString(text) {
		return nil, t.fault(r, column, "%s is not a number", quote(text))
	}
	return rational(strings.ReplaceAll(text, ",", ".")), nil
}

// rational reads what plainNumber has met.
func rational(text string) *big.Rat {
	n, ok := new(big.Rat).SetString(text)
	if !ok {
		return new(big.Rat)
	}
	return n
}

// fraction reads 7/8 and 29 1/2 where the unit is the inch; nil where it is something else.
func fraction(text string, unit *measure.Unit) *big.Rat {
	m := inchFraction.FindStringSubmatch(text)
	if m == nil || unit.Symbol != "in" {
		return nil
	}
	den := rational(m[3])
	if den.Sign() == 0 {
		return nil
	}
	n := new(big.Rat).Quo(rational(m[2]), den)
	if m[1] != "" {
		n.Add(n, rational(m[1]))
	}
	return n
}
