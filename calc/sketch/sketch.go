// Package sketch is a drawing as data: areas, lines and labels on a sheet that is as wide as a
// phone or a page. It knows nothing of files or formats; bot/render turns a sheet into SVG, PNG
// and PDF.
package sketch

// MediaType names a Sheet kept as JSON where files are kept.
const MediaType = "application/vnd.fettle.drawing+json"

// PhoneWidth is the width of a sheet made for a phone held upright, in px.
const PhoneWidth = 390

// LeastText is the smallest lettering that is read on a phone in sunlight, in px.
const LeastText = 11

// Sheet is one drawing. All measures are in px (1/96 inch), x to the right and y down from the
// upper left corner, as on a screen.
type Sheet struct {
	Name   string  `json:"name"`   // short, good for a file's name: "board B1"
	Title  string  `json:"title"`  // one sentence that tells who can't see it what it shows
	Width  float64 `json:"width"`  // > 0
	Height float64 `json:"height"` // > 0
	Shapes []Shape `json:"shapes"` // in the order in which they are painted
}

// Point is a place on a sheet.
type Point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// The kinds of a Shape.
const (
	Area  = "area"  // the points joined and closed, filled and outlined
	Line  = "line"  // the points joined
	Label = "label" // a line of text at the one point
)

// Fill is how an area is filled. Nothing is told by colour alone: each fill is a different
// pattern or shade in black and white too.
type Fill string

// The fills of an area.
const (
	Empty   Fill = ""        // not at all: what lies below shows
	Paper   Fill = "paper"   // white
	Wood    Fill = "wood"    // the light tint of a part or of timber
	Waste   Fill = "waste"   // dotted or light grey: falls off
	Hatched Fill = "hatched" // slanting lines: a fault, or a cut face
	Solid   Fill = "solid"   // black
)

// Anchor is which point of a label stands at its place.
type Anchor string

// The anchors of a label, along the line of text; across it, text is always centred on the place.
const (
	Middle Anchor = ""
	Start  Anchor = "start"
	End    Anchor = "end"
)

// Shape is an area, a line or a label.
type Shape struct {
	Kind   string  `json:"kind"`
	Points []Point `json:"points"` // three or more for an area, two or more for a line, one for a label

	Fill   Fill    `json:"fill,omitempty"`   // of an area
	Stroke float64 `json:"stroke,omitempty"` // width of the line or outline in px; 0: none
	Dashed bool    `json:"dashed,omitempty"` // a hidden edge, a centre line
	Arrows bool    `json:"arrows,omitempty"` // a line with an arrow at both ends: a dimension

	Text   string  `json:"text,omitempty"`   // of a label
	Size   float64 `json:"size,omitempty"`   // height of the lettering in px, LeastText or more
	Bold   bool    `json:"bold,omitempty"`   //
	Anchor Anchor  `json:"anchor,omitempty"` //
	Turn   float64 `json:"turn,omitempty"`   // degrees clockwise; -90 reads from below
	Halo   bool    `json:"halo,omitempty"`   // on a white ground, so that it can be read on a hatching
}

// Add paints further shapes over the sheet.
func (s *Sheet) Add(shapes ...Shape) { s.Shapes = append(s.Shapes, shapes...) }

// Rect is an area with its upper left corner at x, y.
func Rect(x, y, width, height float64) Shape {
	return Shape{Kind: Area, Stroke: 1, Points: []Point{{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}}
}

// Polygon is an area with the corners given.
func Polygon(corners ...Point) Shape { return Shape{Kind: Area, Stroke: 1, Points: corners} }

// Path is a line through the points given.
func Path(points ...Point) Shape { return Shape{Kind: Line, Stroke: 1, Points: points} }

// Words is a label centred on x, y.
func Words(x, y, size float64, text string) Shape {
	return Shape{Kind: Label, Points: []Point{{x, y}}, Size: size, Text: text}
}

// Filled gives the same area with a filling.
func (s Shape) Filled(f Fill) Shape { s.Fill = f; return s }

// Dash gives the same line dashed.
func (s Shape) Dash() Shape { s.Dashed = true; return s }
