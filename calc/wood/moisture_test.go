package wood_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/wood"
)

// The printed table of the USDA Wood Handbook (2010), Table 4-2, read in the source (seen).
func TestEMCAgreesWithTheHandbookTable(t *testing.T) {
	checks := checktest.Read(t)
	inputs := regexp.MustCompile(`^T=(-?[0-9.]+) C .*RH=([0-9]+)%$`)
	rows := checks.Topic(t, "EMC table")
	if len(rows) != 41 {
		t.Fatalf("the table has %d rows, want 41", len(rows))
	}
	for _, r := range rows {
		m := inputs.FindStringSubmatch(r.Inputs)
		if m == nil {
			t.Fatalf("check %s: inputs %q", r.ID, r.Inputs)
		}
		temp, _ := strconv.ParseFloat(m[1], 64)
		rh, _ := strconv.ParseFloat(m[2], 64)
		got, err := wood.EMC(temp, rh)
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, r.ID, got)
		// The handbook prints tenths, so the equation that made the table is within half of one.
		if d := math.Abs(got - checks.Numbers(t, r.ID)[0]); d > 0.06 {
			t.Errorf("check %s: %v is %v off a table of tenths", r.ID, got, d)
		}
	}
}

// EE03 to EE08 are the equation worked out apart from this program (computed), ERO01 to
// ERO04 a university columnist's rule of thumb for a heated room (seen).
func TestEMCAgreesWithOtherEvaluations(t *testing.T) {
	checks := checktest.Read(t)
	for _, c := range []struct {
		id       string
		temp, rh float64
	}{
		{"EE03", 20, 65}, {"EE04", 20, 50}, {"EE05", 15, 75}, {"EE06", 10, 85}, {"EE07", 25, 40}, {"EE08", 5, 90},
		{"ERO01", 21, 30}, {"ERO02", 21, 50}, {"ERO03", 21, 65}, {"ERO04", 21, 80},
	} {
		got, err := wood.EMC(c.temp, c.rh)
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, c.id, got)
		if printed := checks.Expected(t, c.id); strings.HasPrefix(c.id, "EE") && len(printed)-strings.Index(printed, ".") == 3 {
			if d := math.Abs(got - checks.Numbers(t, c.id)[0]); d > 0.0051 {
				t.Errorf("check %s: %v is %v off a value of hundredths", c.id, got, d)
			}
		}
	}
}

// polynomial reads "W=349+1.29T+0.0135T^2" out of the inputs of a row.
func polynomial(t *testing.T, inputs, name string) func(float64) float64 {
	t.Helper()
	_, text, ok := strings.Cut(inputs, " "+name+"=")
	var a, b, c float64
	if _, err := fmt.Sscanf(text, "%g%gT%gT^2", &a, &b, &c); !ok || err != nil {
		t.Fatalf("no %s in %q: %v", name, inputs, err)
	}
	return func(x float64) float64 { return a + b*x + c*x*x }
}

// hailwood works the equation out with the constants that a row prints.
func hailwood(t *testing.T, inputs string) func(temp, humidityPct float64) float64 {
	w, k := polynomial(t, inputs, "W"), polynomial(t, inputs, "K")
	k1, k2 := polynomial(t, inputs, "K1"), polynomial(t, inputs, "K2")
	return func(x, humidityPct float64) float64 {
		y := k(x) * humidityPct / 100
		a, b := k1(x)*y, k1(x)*k2(x)*y*y
		return 1800 / w(x) * (y/(1-y) + (a+2*b)/(1+a+b))
	}
}

// EE01 and EE02 are the handbook's equation for °C and for °F, constants from memory. The rows say
// that they come within 0.056 and 0.067 of one table, so they may be 0.123 apart.
func TestEMCAgreesWithTheEquationOfEitherScale(t *testing.T) {
	checks := checktest.Read(t)
	checks.Prints(t, "EE01", "EMC=(1800/W)[Kh/(1-Kh)+(K1Kh+2K1K2K^2h^2)/(1+K1Kh+K1K2K^2h^2)]")
	celsius, fahrenheit := hailwood(t, checks.Row(t, "EE01").Inputs), hailwood(t, checks.Row(t, "EE02").Inputs)
	for temp := 0.0; temp <= 90; temp += 5 {
		for rh := 5.0; rh <= 95; rh += 5 {
			got, err := wood.EMC(temp, rh)
			if err != nil {
				t.Fatal(err)
			}
			if want := celsius(temp, rh); math.Abs(got-want) > 1e-9 {
				t.Errorf("%v °C, %v %%: %v, want %v", temp, rh, got, want)
			}
			if want := fahrenheit(32+1.8*temp, rh); math.Abs(got-want) > 0.056+0.067 {
				t.Errorf("%v °C, %v %%: %v, by Fahrenheit %v", temp, rh, got, want)
			}
		}
	}
}

// ERO05: the same columnist's rule that 5 points of humidity are 1 point of moisture, over the
// span of his figures, 30 to 80 % (seen; a rule of thumb, so to the whole point that he prints).
func TestEMCAgreesWithTheRuleOfFivePoints(t *testing.T) {
	want := checktest.Read(t).Numbers(t, "ERO05")[0]
	dry, err := wood.EMC(21, 30)
	if err != nil {
		t.Fatal(err)
	}
	damp, err := wood.EMC(21, 80)
	if err != nil {
		t.Fatal(err)
	}
	if got := (damp - dry) * 5 / (80 - 30); math.Round(got) != want {
		t.Errorf("5 points of humidity are %v of moisture, want about %v", got, want)
	}
}

func TestEMCRefusesAirThatCannotBe(t *testing.T) {
	nan := math.NaN()
	for _, c := range [][2]float64{{20, 140}, {20, 0}, {20, -5}, {200, 50}, {-40, 50}, {nan, 50}, {20, nan}, {math.Inf(1), 50}} {
		if got, err := wood.EMC(c[0], c[1]); err == nil {
			t.Errorf("EMC(%v, %v) = %v, want an error", c[0], c[1], got)
		}
	}
}

func TestDamperAirMakesDamperWood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temp := rapid.Float64Range(-5, 40).Draw(t, "temp")
		a := rapid.Float64Range(2, 96).Draw(t, "dry")
		b := rapid.Float64Range(a+0.5, 97.5).Draw(t, "damp")
		dry, err := wood.EMC(temp, a)
		if err != nil {
			t.Fatal(err)
		}
		damp, err := wood.EMC(temp, b)
		if err != nil {
			t.Fatal(err)
		}
		if damp <= dry {
			t.Fatalf("at %v °C: %v %% gives %v, %v %% gives %v", temp, a, dry, b, damp)
		}
	})
}

// The other way round: EMC at the humidity found is the moisture asked for, and 12 % at 20 °C
// belongs to 65 %, as the standard climate has it (Table 4-2, seen).
func TestHumidityForTurnsBack(t *testing.T) {
	standard, err := wood.HumidityFor(20, 12)
	if err != nil || math.Abs(standard-65) > 0.2 {
		t.Errorf("12 %% at 20 °C: %v %v, want about 65", standard, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		temp := rapid.Float64Range(-10, 95).Draw(t, "temperature")
		humidity := rapid.Float64Range(1, 98).Draw(t, "humidity")
		emc, err := wood.EMC(temp, humidity)
		if err != nil {
			t.Fatal(err)
		}
		back, err := wood.HumidityFor(temp, emc)
		if err != nil || math.Abs(back-humidity) > 0.001 {
			t.Fatalf("%v °C, %v %%: %v %v", temp, humidity, back, err)
		}
	})
	for _, bad := range [][2]float64{{20, 0.01}, {20, 40}, {120, 10}, {20, math.NaN()}} {
		if got, err := wood.HumidityFor(bad[0], bad[1]); err == nil {
			t.Errorf("%v: %v", bad, got)
		}
	}
}
