package glue

import (
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// Times is how long one glue-up takes at one temperature, in minutes. Open and closed time
// are to be rounded down, the others up.
type Times struct {
	OpenMin   float64 // from spreading until the parts must be together
	ClosedMin float64 // from then until full pressure
	ClampMin  float64 // under pressure
	WorkMin   float64 // from gluing until it may be planed or sanded
	CureMin   float64 // from gluing until full strength
	MinTempC  float64 // below this it does not bond
}

// At gives the times at a temperature in °C and an air humidity in per cent; NaN for a
// humidity that is not known. MinC to MaxC of the glue is the range; outside it the error
// is a *TooColdError or a *TooHotError.
//
// A time t at the reference temperature R becomes t × 2^((R − T)/10): common practice, no
// source (the general rule of chemists that a reaction doubles its speed in 10 K). It is
// used on the safe side only: waiting times are never shorter than at R, and times to get
// the parts together are never longer.
//
// Humidity h beside the reference 65 %: what hardens with damp waits 65/h times as long in
// dry air and skins over h/65 times as fast in damp air; what dries is open 35/(100 − h)
// as long in dry air, for an open face loses its water to the air (Wood Handbook chapter
// 10, seen) at a rate that goes with the dryness of the air (practice).
func (g Glue) At(tempC, humidityPct float64) (Times, error) {
	if err := g.checkClimate(tempC, humidityPct); err != nil {
		return Times{}, err
	}
	wait := slowdown(g.AtC, tempC)
	open := 1 / slowdown(tempC, g.AtC)
	if g.Setting == Cooling { // the published time is for a cool room; warmth is no reason to hurry
		open = 1
	}
	airOpen, airWait := g.humidity(humidityPct)
	return Times{
		OpenMin:   g.OpenMin.Value * open * airOpen,
		ClosedMin: g.ClosedMin.Value * open,
		ClampMin:  g.ClampMin.Value * wait * airWait,
		WorkMin:   g.WorkMin.Value * wait * airWait,
		CureMin:   g.CureMin.Value * wait * airWait,
		MinTempC:  g.MinC.Value,
	}, nil
}

// slowdown is how many times longer a glue takes at the second temperature than at the
// first when that is colder, and 1 when it is not.
func slowdown(fromC, toC float64) float64 { return max(1, math.Exp2((fromC-toC)/10)) }

func (g Glue) checkClimate(tempC, humidityPct float64) error {
	if err := bounds.Between("the temperature", tempC, -40, 60, "°C"); err != nil {
		return err
	}
	if !math.IsNaN(humidityPct) {
		if err := bounds.Between("the humidity", humidityPct, 1, 100, "%"); err != nil {
			return err
		}
	}
	if tempC < g.MinC.Value {
		return &TooColdError{Glue: g.Name, TempC: tempC, MinC: g.MinC.Value, Reason: g.ColdReason}
	}
	if tempC > g.MaxC.Value {
		return &TooHotError{Glue: g.Name, TempC: tempC, MaxC: g.MaxC.Value}
	}
	return nil
}

// humidity gives the factors on the open time (at most 1) and on the waiting times (at least 1).
func (g Glue) humidity(pct float64) (open, wait float64) {
	switch {
	case math.IsNaN(pct):
		return 1, 1
	case g.Setting == Damp:
		return min(1, ReferenceHumidityPct/pct), max(1, ReferenceHumidityPct/pct)
	case g.Setting == Drying:
		return min(1, (100-ReferenceHumidityPct)/max(100-pct, 1)), 1
	}
	return 1, 1
}

// TooColdError says that a glue does not bond at a temperature. It is an answer rather than
// a mistake: do not glue.
type TooColdError struct {
	Glue        string
	TempC, MinC float64
	Reason      string
}

// Error is a sentence for the person who asked.
func (e *TooColdError) Error() string {
	return fmt.Sprintf("%s does not bond below %s °C: %s; at %s °C don't glue, but warm the wood, the glue and the room first",
		e.Glue, bounds.Number(e.MinC), e.Reason, bounds.Number(e.TempC))
}

// TooHotError says that it is too warm to spread a glue before it sets.
type TooHotError struct {
	Glue        string
	TempC, MaxC float64
}

// Error is a sentence for the person who asked.
func (e *TooHotError) Error() string {
	return fmt.Sprintf("%s sets before the parts are together above %s °C; at %s °C don't glue, but wait for a cooler hour",
		e.Glue, bounds.Number(e.MaxC), bounds.Number(e.TempC))
}
