package joinery

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
	"fettle/calc/fasten"
	"fettle/calc/layout"
	"fettle/calc/measure"
	"fettle/calc/wood"
)

// Rack is shelves between two ends. Sizes that are 0 are assumed.
type Rack struct {
	Words
	WidthMM      float64 // over all, unless ShelfWidth says that it is the shelves'
	ShelfWidth   bool    // WidthMM is between the ends
	HeightMM     float64 // of the ends
	DepthMM      float64
	Shelves      int
	Items        int     // to be kept, on each shelf or in all
	ItemMM       float64 // width of one
	ItemHeightMM float64
	InAll        bool    // Items is for all shelves together
	ThicknessMM  float64 // of shelves and ends
	HousingMM    float64 // how deep the shelves are let into the ends; 0: screwed from outside
	LipMM        float64 // height of the retaining lip
	BackMM       float64 // height of the back rail
	NoLip        bool
	NoBack       bool
	Timber       wood.Species

	perShelf int
	clearMM  float64 // between the ends
	highMM   float64 // above each shelf
}

// What is assumed of a rack; all are common practice, no source.
const (
	itemGapMM  = 10   // least gap between items and at the ends, where the width is free
	itemTall   = 1.25 // height of an item to its width, where it was not said
	handRoomMM = 40   // above an item
	itemPlayMM = 10   // in the depth
	railMM     = 10   // thickness of lip and back rail
	rackScrew  = 4    // thickness of the screws, mm
	lipPitchMM = 200  // farthest apart along lip and rail
	endPitchMM = 90   // farthest apart through an end into a shelf
	letInMM    = 6    // depth of a housing that is proposed
)

func (r Rack) assumed(m *Made) (Rack, error) {
	h := evidence.Habit
	r.Shelves = m.count(r.Shelves, "shelves", "shelves", "%s shelves", 2, h)
	r.ThicknessMM = m.assume(r.ThicknessMM, "thickness_mm", "shelves and ends thick", "shelves %s thick", h(18))
	if r.Items > 0 && r.ItemMM == 0 {
		return r, errors.New("how wide is each of them?")
	}
	if r.Items > 0 {
		r.share(m)
	}
	if r.WidthMM == 0 {
		if r.perShelf == 0 {
			return r, errors.New("how wide is the rack, or what is it for?")
		}
		free := float64(r.perShelf)*r.ItemMM + float64(r.perShelf+1)*itemGapMM
		r.WidthMM, r.ShelfWidth = m.assume(0, "width_mm", "shelves long", "shelves %s wide", h(free)), true
	}
	r.clearMM = r.WidthMM - 2*r.ThicknessMM
	if r.ShelfWidth {
		r.clearMM, r.WidthMM = r.WidthMM, r.WidthMM+2*r.ThicknessMM
	}
	r = r.upright(m)
	if r.DepthMM == 0 && r.ItemMM == 0 {
		return r, errors.New("how deep are the shelves?")
	}
	r.DepthMM = m.assume(r.DepthMM, "depth_mm", "shelves deep", "depth %s", h(math.Ceil(r.ItemMM+itemPlayMM+r.taken())))
	return r, nil
}

// share settles how many items stand on a shelf: all that were said where they fit, else they are
// shared out.
func (r *Rack) share(m *Made) {
	r.perShelf = r.Items
	clear := r.WidthMM - 2*r.ThicknessMM
	if r.ShelfWidth {
		clear = r.WidthMM
	}
	switch {
	case r.InAll, r.WidthMM > 0 && float64(r.Items)*r.ItemMM > clear:
		r.perShelf = (r.Items + r.Shelves - 1) / r.Shelves
		if !r.InAll && r.Shelves > 1 {
			m.choose("items_in_all", "items", fmt.Sprintf("%d in all, %d on a shelf", r.Items, r.perShelf), fmt.Sprintf("%d on each shelf", r.perShelf))
		}
	case r.Shelves > 1:
		m.choose("items_in_all", "items", fmt.Sprintf("%d on each shelf", r.Items), fmt.Sprintf("%d in all", r.Items))
	}
}

// upright settles heights, lip and back rail.
func (r Rack) upright(m *Made) Rack {
	h := evidence.Habit
	if r.ItemMM > 0 && r.ItemHeightMM == 0 {
		r.ItemHeightMM = m.assume(0, "item_height_mm", "height of an item", "items %s high", h(math.Ceil(itemTall*r.ItemMM/5)*5))
	}
	n := float64(r.Shelves)
	if r.HeightMM == 0 && r.ItemMM > 0 {
		r.HeightMM = m.assume(0, "height_mm", "ends high", "ends %s high", h(n*(r.ThicknessMM+r.ItemHeightMM+handRoomMM)))
	}
	r.highMM = r.HeightMM/n - r.ThicknessMM
	if !r.NoLip {
		lip := 30.0
		if r.ItemHeightMM > 0 {
			lip = math.Min(lip, math.Floor(r.ItemHeightMM/3))
		}
		r.LipMM = m.assume(r.LipMM, "lip_mm", "lip high", "lip %s", h(lip))
	}
	if !r.NoBack {
		r.BackMM = m.assume(r.BackMM, "back_mm", "back rail high", "back rail %s", h(40))
	}
	return r
}

// taken is what lip and back rail take of the depth.
func (r Rack) taken() float64 {
	t := 0.0
	if !r.NoLip {
		t += railMM
	}
	if !r.NoBack {
		t += railMM
	}
	return t
}

func (r Rack) check() error {
	if err := cmp.Or(
		bounds.Between("the number of shelves", float64(r.Shelves), 1, 30, ""),
		r.between("the width", r.clearMM, 20, 6000),
		r.between("the depth", r.DepthMM, 20, 1500),
		r.between("the thickness", r.ThicknessMM, 4, 80),
		r.between("the housing", r.HousingMM, 0, r.ThicknessMM*0.75),
		r.between("the lip", r.LipMM, 0, 400),
		r.between("the back rail", r.BackMM, 0, 600),
	); err != nil {
		return err
	}
	switch {
	case r.HeightMM == 0:
		return errors.New("how high is the rack?")
	case r.highMM < 20, r.highMM < r.BackMM:
		return fmt.Errorf("%d shelves in %s leave only %s above each; say fewer or a higher rack", r.Shelves, r.size(r.HeightMM), r.size(r.highMM))
	case r.ItemHeightMM > 0 && r.highMM < r.ItemHeightMM:
		return fmt.Errorf("there are %s above each shelf, and the items are %s high; say fewer shelves or a higher rack", r.size(r.highMM), r.number(r.ItemHeightMM))
	case r.ItemMM > 0 && r.DepthMM-r.taken() < r.ItemMM:
		return fmt.Errorf("behind the lip and before the back rail there are %s of depth, and an item takes %s; say a deeper shelf", r.size(r.DepthMM-r.taken()), r.number(r.ItemMM))
	case r.ItemHeightMM > 0 && r.LipMM >= r.ItemHeightMM:
		return fmt.Errorf("the lip of %s is as high as the items, %s; say a lower one", r.size(r.LipMM), r.number(r.ItemHeightMM))
	}
	return nil
}

// Make works out the rack:
//
//	shelves   between the ends, and into their housings
//	height    shared out equally: the lowest shelf stands at the foot of the ends, the top is open
//	items     equal gaps between them and at the ends (layout.EqualEnds)
//	screws    10 and 4 screw thicknesses from ends and edges, as fasten.EdgesOf, evenly between
//
// It fails on sizes that cannot be, and when the items do not fit.
func (r Rack) Make() (Made, error) {
	m := Made{words: r.Words}
	if err := r.sizes(r.WidthMM, r.HeightMM, r.DepthMM, r.ItemMM, r.ItemHeightMM, r.ThicknessMM, r.HousingMM, r.LipMM, r.BackMM); err != nil {
		return m, err
	}
	r, err := r.assumed(&m)
	if err != nil {
		return m, err
	}
	if err := r.check(); err != nil {
		return m, err
	}
	row, err := r.items()
	if err != nil {
		return m, err
	}
	r.parts(&m)
	r.place(&m, row)
	if err := r.screws(&m); err != nil {
		return m, err
	}
	if row.Count > 0 {
		m.note(fmt.Sprintf("%d items of %s on a shelf: gaps of %s, centres from the left end's inside at %s.", row.Count, r.number(r.ItemMM), r.size(row.Gap.MM()), r.runs(row.Centres)))
	}
	m.because(fmt.Sprintf("Between the ends %s = %s − 2 × %s; above a shelf %s = %s / %d − %s: geometry.", r.number(r.clearMM), r.number(r.WidthMM), r.number(r.ThicknessMM), r.number(r.highMM), r.number(r.HeightMM), r.Shelves, r.number(r.ThicknessMM)))
	if row.Count > 0 {
		m.because(fmt.Sprintf("Gap %s = (%s − %d × %s) / %d.", r.number(row.Gap.MM()), r.number(r.clearMM), row.Count, r.number(r.ItemMM), row.Count+1))
	}
	m.because("Thickness, lip, rail and room where not said: common practice, no source.")
	m.because(fmt.Sprintf("Screws of %s: %s from an end and %s from an edge, 10 and 4 thicknesses (ESR-4948 table 6, read there).", r.size(rackScrew), r.number(10*rackScrew), r.number(4*rackScrew)))
	m.caution("Hang it from what carries: studs or a batten screwed to them, not lining alone; what stands above people needs more than a guess.")
	r.draw(&m)
	return m, nil
}

func (r Rack) items() (layout.Row, error) {
	if r.perShelf == 0 {
		return layout.Row{}, nil
	}
	span, err := measure.FromMM(r.clearMM)
	if err != nil {
		return layout.Row{}, err
	}
	item, err := measure.FromMM(r.ItemMM)
	if err != nil {
		return layout.Row{}, err
	}
	return layout.Spacing{Span: span, Item: item, Count: r.perShelf}.Row()
}

func (r Rack) parts(m *Made) {
	square := func(name string, n int, length, width, thick float64, note string) {
		m.add(Part{Name: name, Quantity: n, LengthMM: length, WidthMM: width, ThicknessMM: thick, EdgeMM: length, LeftDeg: 90, RightDeg: 90, Material: r.Timber.Name, Note: note})
	}
	note := ""
	if r.HousingMM > 0 {
		note = fmt.Sprintf("%d housings %s wide and %s deep, lower edges at %s from the foot.", r.Shelves, r.number(r.ThicknessMM), r.number(r.HousingMM), r.levels()+" "+r.unit())
	}
	square("end", 2, r.HeightMM, r.DepthMM, r.ThicknessMM, note)
	square("shelf", r.Shelves, r.clearMM+2*r.HousingMM, r.DepthMM-r.taken(), r.ThicknessMM, "")
	if !r.NoLip {
		square("lip", r.Shelves, r.clearMM, r.LipMM+r.ThicknessMM, railMM, fmt.Sprintf("Stands %s above the shelf, its lower edge flush with the underside.", r.number(r.LipMM)))
	}
	if !r.NoBack {
		square("back rail", r.Shelves, r.clearMM, r.BackMM, railMM, "Behind the items, between the ends.")
	}
}

// shelfAt is how high the underside of a shelf lies.
func (r Rack) shelfAt(i int) float64 { return float64(i) * (r.highMM + r.ThicknessMM) }

func (r Rack) levels() string {
	text := ""
	for i := range r.Shelves {
		if i > 0 {
			text += " · "
		}
		text += r.number(r.shelfAt(i))
	}
	return text
}

func (r Rack) place(m *Made, row layout.Row) {
	box := func(name string, kind Kind, x, y, w, h float64) {
		m.place(name, kind, Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h})
	}
	t := r.ThicknessMM
	for i := range r.Shelves {
		y := r.shelfAt(i)
		box("shelf", Timber, t, y, r.clearMM, t)
		if !r.NoBack {
			box("back rail", Timber, t, y+t+(r.highMM-r.BackMM)/2, r.clearMM, r.BackMM)
		}
		for _, at := range row.Starts {
			box("", Space, t+at.MM(), y+t, r.ItemMM, r.ItemHeightMM)
		}
		if !r.NoLip {
			box("lip", Timber, t, y, r.clearMM, r.LipMM+t)
		}
	}
	box("end", Timber, 0, 0, t, r.HeightMM)
	box("end", Timber, t+r.clearMM, 0, t, r.HeightMM)
}

// screws says where they go.
func (r Rack) screws(m *Made) error {
	e, err := fasten.EdgesOf(rackScrew)
	if err != nil {
		return err
	}
	through, err := r.evenly(r.DepthMM, e.EdgeMM, endPitchMM)
	if err != nil {
		return err
	}
	grain := "they sit in end grain, so glue as well, or say “let in " + r.number(letInMM) + "”"
	if r.HousingMM > 0 {
		grain = "they only hold the glued housings shut"
	}
	m.note(fmt.Sprintf("Screws through each end into each shelf, from its front edge: %s; %s.", through, grain))
	if r.NoLip && r.NoBack {
		return nil
	}
	along, err := r.evenly(r.clearMM, e.EndMM, lipPitchMM)
	if err != nil {
		return err
	}
	m.note(fmt.Sprintf("Screws along lip and back rail, from their left end: %s.", along))
	return nil
}

// evenly spaces screws along a length, so far from its ends or less where it is short, and no
// farther apart than a pitch.
func (r Rack) evenly(lengthMM, endMM, pitchMM float64) (string, error) {
	span, err := measure.FromMM(lengthMM)
	if err != nil {
		return "", err
	}
	end, err := measure.FromMM(math.Min(endMM, lengthMM/4))
	if err != nil {
		return "", err
	}
	pitch, err := measure.FromMM(pitchMM)
	if err != nil {
		return "", err
	}
	row, err := layout.Spacing{Span: span, Ends: layout.MarginEnds, End: end, MostGap: pitch}.Row()
	if err != nil {
		return "", err
	}
	return r.runs(row.Centres), nil
}

func (r Rack) draw(m *Made) {
	p := newPicture(r.Words, "rack", fmt.Sprintf("A rack from the front, %s wide, %s high, with %d shelves", r.number(r.WidthMM), r.number(r.HeightMM), r.Shelves), Point{}, Point{r.WidthMM, r.HeightMM}, 2)
	p.pieces(m.Pieces)
	foot := Quad{{0, 0}, {r.WidthMM, 0}, {r.WidthMM, r.HeightMM}, {0, r.HeightMM}}
	p.around(foot, far)
	t := r.ThicknessMM
	p.measure(Point{t + r.clearMM, r.HeightMM}, Point{t, r.HeightMM}, -near, r.number(r.clearMM))
	for i := range r.Shelves {
		y := r.shelfAt(i) + t
		p.measure(Point{r.WidthMM, y + r.highMM}, Point{r.WidthMM, y}, near, r.number(r.highMM))
	}
	p.below(1, fmt.Sprintf("Ends and shelves %s thick, %s deep. %s, to scale.", r.number(t), r.number(r.DepthMM), r.unit()))
	if r.perShelf > 0 {
		p.below(0, fmt.Sprintf("Dashed: %d items %s wide on a shelf.", r.perShelf, r.number(r.ItemMM)))
	}
	m.Drawing = p.sheet
}
