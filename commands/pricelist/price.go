package pricelist

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var amountPattern = regexp.MustCompile(`\d[\d.,' ]*\d|\d`)

// readPrice reads an amount of money: 31.20, € 31,20, 1,250.00, 1.250,00, 1 250. The last of two
// different marks is the decimal one; of a single mark with three digits behind it nobody can
// say, so it is refused.
func readPrice(text string) (float64, error) {
	found := amountPattern.FindAllString(stripUnits(text), -1)
	if len(found) != 1 {
		return 0, fmt.Errorf("its price, “%s”, can't be read", short(text))
	}
	n := strings.NewReplacer(" ", "", "'", "").Replace(found[0])
	comma, dot := strings.LastIndex(n, ","), strings.LastIndex(n, ".")
	mark := max(comma, dot)
	switch {
	case mark < 0:
	case comma >= 0 && dot >= 0:
		n = decimalAt(n, mark)
	case strings.Count(n, string(n[mark])) > 1:
		n = strings.ReplaceAll(n, string(n[mark]), "") // 1.250.000
	case len(n)-mark-1 == 3:
		return 0, fmt.Errorf("its price, “%s”, may be read in two ways", short(text))
	default:
		n = decimalAt(n, mark)
	}
	v, err := strconv.ParseFloat(n, 64)
	if err != nil || v <= 0 || v > 1e6 {
		return 0, fmt.Errorf("its price, “%s”, can't be read", short(text))
	}
	return v, nil
}

// stripUnits takes out what a price is for, so that the 3 of m3 is no second amount.
func stripUnits(text string) string {
	return regexp.MustCompile(`(?i)m[23²³]`).ReplaceAllString(text, "")
}

func decimalAt(n string, mark int) string {
	whole := strings.NewReplacer(",", "", ".", "").Replace(n[:mark])
	return whole + "." + n[mark+1:]
}

// assumedEach is what a price is for where the list has a whole size a line and says nothing.
const assumedEach = "(taken as each)"

// priceOfOne works out what one board costs.
func priceOfOne(amount float64, per string, o Offer) (float64, error) {
	switch per {
	case "each", assumedEach:
		return amount, nil
	case "per metre":
		return amount * o.Length.MM() / 1000, nil
	case "per m³":
		return amount * o.Length.MM() * o.Width.MM() * o.Thickness.MM() / 1e9, nil
	}
	return 0, errors.New("its price is by a measure that I don't know")
}
