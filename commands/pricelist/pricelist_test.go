package pricelist_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/measure"
	"fettle/commands/pricelist"
)

func page(tables string) string {
	return "<html><head><title>Hollow Lane timber yard</title></head><body>" + tables + "</body></html>"
}

func read(t *testing.T, html string) pricelist.List {
	t.Helper()
	list, err := pricelist.Read(strings.NewReader(html))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// The prices of one board are worked out by hand beside each row.
func TestPricesInEveryForm(t *testing.T) {
	for name, c := range map[string]struct {
		html    string
		mm      [3]float64 // length, width, thickness
		price   float64
		species string
	}{
		"units in the header, each": {`<table><tr><th>Species<th>Thickness (mm)<th>Width (mm)<th>Length (m)<th>Price each</tr>
			<tr><td>Sapele<td>32<td>210<td>2.6<td>£31.20</tr></table>`, [3]float64{2600, 210, 32}, 31.20, "Sapele"},
		"units in the cells, per metre": {`<table><tr><th>Timber<th>Thickness<th>Width<th>Length<th>Price</tr>
			<tr><td>Ash<td>27 mm<td>150 mm<td>3 m<td>12.40 per metre</tr></table>`, [3]float64{3000, 150, 27}, 37.20, "Ash"},
		"per cube, decimal commas": {`<table><caption>Eiche</caption><tr><th>T mm<th>W mm<th>L mm<th>€ per m³</tr>
			<tr><td>27<td>180<td>2400<td>1.850,00</tr></table>`, [3]float64{2400, 180, 27}, 1850 * 2.4 * 0.18 * 0.027, "Eiche"},
		"one column for the size": {`<h2>Larch</h2><table><tr><th>Size<th>Cost</tr>
			<tr><td>38 x 125 x 3000 mm<td>€ 14,50 each</tr></table>`, [3]float64{3000, 125, 38}, 14.50, "Larch"},
		"inches": {`<table><tr><th>Wood<th>Thickness (in)<th>Width (in)<th>Length (ft)<th>Price each</tr>
			<tr><td>Oak<td>1 1/4<td>8<td>7<td>$62.00</tr></table>`, [3]float64{2133.6, 203.2, 31.75}, 62, "Oak"},
		"a line across names the timber": {`<table><tr><th>Thickness (mm)<th>Width (mm)<th>Length (mm)<th>Price</tr>
			<tr><td colspan=4>Sapele, kiln dried</td></tr><tr><td>27<td>160<td>2400<td>29.00</tr></table>`, [3]float64{2400, 160, 27}, 29, "Sapele, kiln dried"},
	} {
		t.Run(name, func(t *testing.T) {
			list := read(t, page(c.html))
			if len(list.Offers) != 1 {
				t.Fatalf("read %+v", list)
			}
			o := list.Offers[0]
			if got := [3]float64{o.Length.MM(), o.Width.MM(), o.Thickness.MM()}; got != c.mm {
				t.Errorf("size %v, want %v", got, c.mm)
			}
			if math.Abs(o.Price-c.price) > 0.005 {
				t.Errorf("price %.3f, want %.3f", o.Price, c.price)
			}
			if o.Species != c.species {
				t.Errorf("species %q, want %q", o.Species, c.species)
			}
		})
	}
}

// What can be read in two ways, or not at all, is left out and said; the rest is read.
func TestUnreadableLinesAreSaid(t *testing.T) {
	list := read(t, page(`<table><tr><th>Species<th>Thickness (mm)<th>Width (mm)<th>Length (mm)<th>Price each</tr>
		<tr><td>Ash<td>27<td>150<td>2400<td>1.250</tr>
		<tr><td>Ash<td>27<td>random<td>2400<td>31</tr>
		<tr><td>Ash<td>27<td>150<td>2400<td>on application</tr>
		<tr><td>Ash<td>2700<td>150<td>2400<td>31</tr>
		<tr><td>Ash<td>27<td>150<td>2400<td>31 per sq ft</tr>
		<tr><td>Ash<td>27<td>150<td>2400<td>31.50</tr></table>`))
	if len(list.Offers) != 1 || list.Offers[0].Price != 31.50 {
		t.Errorf("offers: %+v", list.Offers)
	}
	var why []string
	for _, s := range list.Skipped {
		why = append(why, s.Reason)
	}
	got := strings.Join(why, "\n")
	for _, want := range []string{"two ways", "width, “random”, can't", "price, “on application”, can't", "2700 mm thick", "measure that I don't know"} {
		if !strings.Contains(got, want) {
			t.Errorf("nothing says %q:\n%s", want, got)
		}
	}
}

// A length without a unit in cell or header is no length.
func TestNoUnitNoSize(t *testing.T) {
	list := read(t, page(`<table><tr><th>Thickness<th>Width<th>Length<th>Price each</tr><tr><td>27<td>150<td>2400<td>31</tr></table>`))
	if len(list.Offers) != 0 || len(list.Skipped) != 1 {
		t.Errorf("read %+v", list)
	}
}

func TestAPageWithoutAPriceList(t *testing.T) {
	for _, html := range []string{"", "hello", page("<table><tr><td>opening hours<td>nine to four</tr></table>")} {
		if _, err := pricelist.Read(strings.NewReader(html)); !errors.Is(err, pricelist.ErrNoTable) {
			t.Errorf("%q: %v", html, err)
		}
	}
}

// Tables for the page's looks, with the price list inside, are seen through.
func TestNestedTables(t *testing.T) {
	list := read(t, page(`<table><tr><td>menu</td><td><table><tr><th>Size (mm)<th>Price each</tr><tr><td>2400x150x27<td>31</tr></table></td></tr></table>`))
	if len(list.Offers) != 1 {
		t.Errorf("read %+v", list)
	}
}

// Whatever sizes and price a merchant writes in the plain form are read as they stand.
func TestPlainListsAreReadAsTheyStand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.IntRange(200, 6000).Draw(t, "length")
		w := rapid.IntRange(20, 600).Draw(t, "width")
		th := rapid.IntRange(5, 100).Draw(t, "thickness")
		cents := rapid.IntRange(1, 99999).Draw(t, "cents")
		html := page(fmt.Sprintf(`<table><tr><th>Thickness (mm)<th>Width (mm)<th>Length (mm)<th>Price each</tr>
			<tr><td>%d<td>%d<td>%d<td>€ %d,%02d</tr></table>`, th, w, l, cents/100, cents%100))
		list, err := pricelist.Read(strings.NewReader(html))
		if err != nil || len(list.Offers) != 1 {
			t.Fatalf("read %+v, %v", list, err)
		}
		o := list.Offers[0]
		mm := measure.Millimetre
		if o.Length != measure.Length(l)*mm || o.Width != measure.Length(w)*mm || o.Thickness != measure.Length(th)*mm ||
			math.Abs(o.Price-float64(cents)/100) > 1e-9 {
			t.Fatalf("read %+v", o)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add(page(`<table><tr><th>Size<th>Cost</tr><tr><td>38 x 125 x 3000 mm<td>€ 14,50 each</tr></table>`))
	f.Add("<table><tr><th>t<th>w<th>l<th>£</tr><tr><td>1e400<td>½<td>-3 m<td>9,9,9.9")
	f.Add("<table><table><tr><th>price thickness width length")
	f.Fuzz(func(t *testing.T, html string) {
		list, err := pricelist.Read(strings.NewReader(html))
		if err != nil {
			return
		}
		for _, o := range list.Offers {
			if o.Length <= 0 || o.Width <= 0 || o.Thickness <= 0 || !(o.Price > 0) || math.IsInf(o.Price, 0) {
				t.Fatalf("an offer of nothing: %+v", o)
			}
		}
		for _, s := range list.Skipped {
			if s.Reason == "" {
				t.Fatalf("left out without a reason: %+v", s)
			}
		}
	})
}
