package pricelist

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// columns says what stands in which column, and in which unit where the cell does not say; -1
// where there is no such column.
type columns struct {
	species, length, width, thickness, size, price int
	units                                          map[int]string // by column, from the header
	per                                            string         // what the price is for, if the header says
}

// headings are the words by which a column is known, tried in this order: a heading "price per
// m length" is a price.
var headings = []struct {
	pattern *regexp.Regexp
	column  func(*columns) *int
}{
	{regexp.MustCompile(`(?i)price|cost|rate|[€£$]|\beuro?\b`), func(c *columns) *int { return &c.price }},
	{regexp.MustCompile(`(?i)thick|\bdepth\b|^t\b`), func(c *columns) *int { return &c.thickness }},
	{regexp.MustCompile(`(?i)\bwidth|\bwide|^w\b`), func(c *columns) *int { return &c.width }},
	{regexp.MustCompile(`(?i)\blength|\blong|^l\b`), func(c *columns) *int { return &c.length }},
	{regexp.MustCompile(`(?i)\bsize|dimension|section`), func(c *columns) *int { return &c.size }},
	{regexp.MustCompile(`(?i)species|timber|wood|product|description|name|item|material`), func(c *columns) *int { return &c.species }},
}

var unitInHeader = regexp.MustCompile(`(?i)\b(mm|millimet(?:re|er)s?|cm|m|met(?:re|er)s?|in|inch|inches|ft|feet)\b|(")`)

// readHeader reads a line as the heading of a table of timber, nil if it is none.
func readHeader(cells []string) *columns {
	c := &columns{species: -1, length: -1, width: -1, thickness: -1, size: -1, price: -1, units: map[int]string{}}
	for i, text := range cells {
		for _, h := range headings {
			if at := h.column(c); *at < 0 && h.pattern.MatchString(text) {
				*at = i
				break
			}
		}
		if u := unitInHeader.FindString(text); u != "" && i != c.price {
			c.units[i] = u
		}
	}
	if c.price < 0 || c.size < 0 && (c.length < 0 || c.width < 0 || c.thickness < 0) {
		return nil
	}
	c.per = perOf(cells[c.price])
	return c
}

// offer reads a line of the table.
func (c *columns) offer(cells []string, caption string) (Offer, error) {
	o := Offer{Species: c.cell(cells, c.species)}
	if o.Species == "" {
		o.Species = caption
	}
	if err := c.sizes(&o, cells); err != nil {
		return o, err
	}
	said := c.cell(cells, c.price)
	each, err := readPrice(said)
	if err != nil {
		return o, err
	}
	per := perOf(said)
	if per == "" {
		per = cmp.Or(c.per, assumedEach)
	}
	if o.Price, err = priceOfOne(each, per, o); err != nil {
		return o, err
	}
	if o.Said = said; perOf(said) == "" {
		o.Said += " " + per
	}
	return o, nil
}

func (c *columns) cell(cells []string, at int) string {
	if at < 0 || at >= len(cells) {
		return ""
	}
	return cells[at]
}

// sizes reads the three sizes from their columns or from one that holds them all.
func (c *columns) sizes(o *Offer, cells []string) error {
	if c.size >= 0 && (c.length < 0 || c.width < 0 || c.thickness < 0) {
		return c.sizeAtOnce(o, cells)
	}
	for _, s := range []struct {
		name string
		at   int
		to   *measure.Length
	}{{"length", c.length, &o.Length}, {"width", c.width, &o.Width}, {"thickness", c.thickness, &o.Thickness}} {
		all, err := lengths(c.cell(cells, s.at), c.units[s.at])
		if err != nil || len(all) != 1 {
			return fmt.Errorf("its %s, “%s”, can't be read", s.name, short(c.cell(cells, s.at)))
		}
		*s.to = all[0]
	}
	return o.plausible()
}

// sizeAtOnce reads 2400 × 150 × 27: the longest is the length, the smallest the thickness. A
// section of two takes its length from that column.
func (c *columns) sizeAtOnce(o *Offer, cells []string) error {
	text := c.cell(cells, c.size)
	all, err := lengths(text, c.units[c.size])
	if err == nil && c.length >= 0 {
		var more []measure.Length
		if more, err = lengths(c.cell(cells, c.length), c.units[c.length]); len(more) == 1 {
			all = append(all, more[0])
		}
	}
	if err != nil || len(all) != 3 {
		return fmt.Errorf("its size, “%s”, can't be read", short(text))
	}
	for i := range all {
		for j := range i {
			if all[i] > all[j] {
				all[i], all[j] = all[j], all[i]
			}
		}
	}
	o.Length, o.Width, o.Thickness = all[0], all[1], all[2]
	return o.plausible()
}

// lengths reads the lengths of a cell. Those without a unit have the one that stands behind the
// last, else the header's; without any they cannot be read.
func lengths(text, unit string) ([]measure.Length, error) {
	qs := speech.Quantities(text)
	if len(qs) == 0 {
		return nil, errors.New("no number")
	}
	if last := qs[len(qs)-1]; last.Bare() {
		if unit == "" {
			return nil, errors.New("no unit")
		}
		qs = speech.Quantities(text + " " + unit)
	}
	last := qs[len(qs)-1]
	out := make([]measure.Length, len(qs))
	for i, q := range qs {
		if q.Bare() {
			q.Unit, q.Kind = last.Unit, last.Kind
		}
		if q.Kind != measure.KindLength || q.Value == nil || q.High != nil {
			return nil, errors.New("no length")
		}
		l, err := measure.Times(q.Base(), measure.Millimetre)
		if err != nil {
			return nil, err
		}
		out[i] = l
	}
	return out, nil
}

// What a board of a merchant may measure; common practice, no source.
const (
	longestOffer  = 12 * measure.Metre
	widestOffer   = 2500 * measure.Millimetre
	thickestOffer = 300 * measure.Millimetre
	thinnestOffer = measure.Millimetre
)

func (o *Offer) plausible() error {
	switch {
	case o.Thickness < thinnestOffer || o.Thickness > thickestOffer:
		return fmt.Errorf("no board is %s thick", measure.Metric.Exact(o.Thickness))
	case o.Width < 10*measure.Millimetre || o.Width > widestOffer:
		return fmt.Errorf("no board is %s wide", measure.Metric.Exact(o.Width))
	case o.Length < 100*measure.Millimetre || o.Length > longestOffer:
		return fmt.Errorf("no board is %s long", measure.Metric.Exact(o.Length))
	}
	return nil
}

// perOf finds what a price is for: "each", "per metre", "per m3", or "" where nothing is said.
func perOf(text string) string {
	lower := strings.ToLower(text)
	switch {
	case perCube.MatchString(lower):
		return "per m³"
	case perMetre.MatchString(lower):
		return "per metre"
	case perPiece.MatchString(lower):
		return "each"
	case perOther.MatchString(lower):
		return "by another measure"
	}
	return ""
}

var (
	perCube  = regexp.MustCompile(`(/|\bper|\bà|\ba)\s*(m3|m³|cubic met|cube\b|cbm\b)|\bcubic met`)
	perMetre = regexp.MustCompile(`(/|\bper|\ba)\s*(lin(ear|\.)?\s*)?(m|metre|meter|lm|rm)\b[^²2³3]*$|\b(linear|running) met`)
	perPiece = regexp.MustCompile(`\beach\b|\bea\b|(/|\bper|\ba)\s*(pc|piece|board|plank|unit|item|length)\b`)
	perOther = regexp.MustCompile(`(/|\bper)\s*\S|m2|m²`)
)
