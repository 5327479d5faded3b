package planfile

import (
	"encoding/json"
	"fmt"
	"io"
	"time"

	"fettle/calc/cutplan"
)

// The plan as programs read it. Lengths are in mm from the board's left end and lower edge.
type planJSON struct {
	Boards    []boardJSON `json:"boards"`
	LeftOut   []leftJSON  `json:"left_out"`
	StockArea float64     `json:"stock_area_m2"`
	PartsArea float64     `json:"parts_area_m2"`
	Cost      float64     `json:"cost"`
	Bound     float64     `json:"bound"`
	Proved    bool        `json:"proved"`
	Seconds   float64     `json:"seconds"`
	Nodes     int64       `json:"nodes"`
	Kerf      float64     `json:"kerf_mm"`
	Trim      float64     `json:"trim_mm"`
}

type boardJSON struct {
	Board     string     `json:"board"`
	Length    float64    `json:"length_mm"`
	Width     float64    `json:"width_mm"`
	Thickness float64    `json:"thickness_mm"`
	Price     *float64   `json:"price"` // null where none is known
	Parts     []partJSON `json:"parts"`
	Offcuts   []rectJSON `json:"offcuts"`
	Cuts      []cutJSON  `json:"cuts"`
}

type rectJSON struct {
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Length float64 `json:"length_mm"`
	Width  float64 `json:"width_mm"`
}

type partJSON struct {
	Part string `json:"part"`
	rectJSON
	Turned bool `json:"turned"`
}

type cutJSON struct {
	Order  int      `json:"order"`
	Across bool     `json:"across"`
	At     float64  `json:"at_mm"`  // the kept edge
	Starts bool     `json:"starts"` // what is kept begins there, and the kerf lies before it
	Stage  int      `json:"stage"`
	Piece  rectJSON `json:"piece"` // what the cut goes through
}

type leftJSON struct {
	Part     string `json:"part"`
	Quantity int    `json:"quantity"`
	Reason   string `json:"reason"`
}

// writeJSON prints the plan as one object.
func writeJSON(w io.Writer, job cutplan.Job, plan cutplan.Plan, took time.Duration) error {
	out := planJSON{Boards: []boardJSON{}, LeftOut: []leftJSON{}, StockArea: plan.StockArea, PartsArea: plan.PartsArea,
		Cost: plan.Cost, Bound: plan.Bound, Proved: plan.Proved, Seconds: took.Seconds(), Nodes: plan.Nodes, Kerf: plan.Kerf.MM(), Trim: plan.Trim.MM()}
	for _, b := range plan.Boards {
		out.Boards = append(out.Boards, boardOf(b, job.Boards[b.Board].Priced))
	}
	for _, l := range plan.LeftOut {
		out.LeftOut = append(out.LeftOut, leftJSON{l.Name, l.Quantity, l.Reason})
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(out); err != nil {
		return fmt.Errorf("write the plan: %w", err)
	}
	return nil
}

func boardOf(b cutplan.SawnBoard, priced bool) boardJSON {
	out := boardJSON{Board: b.Name, Length: b.Length.MM(), Width: b.Width.MM(), Thickness: b.Thickness.MM(),
		Parts: []partJSON{}, Offcuts: []rectJSON{}, Cuts: []cutJSON{}}
	if priced {
		out.Price = &b.Price
	}
	for _, p := range b.Parts {
		out.Parts = append(out.Parts, partJSON{p.Name, rectOf(cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width}), p.Turned})
	}
	for _, r := range b.Offcuts {
		out.Offcuts = append(out.Offcuts, rectOf(r))
	}
	for _, c := range b.Cuts {
		out.Cuts = append(out.Cuts, cutJSON{c.Order, c.Across, c.At.MM(), c.Starts, c.Stage, rectOf(c.Piece)})
	}
	return out
}

func rectOf(r cutplan.Rect) rectJSON {
	return rectJSON{r.X.MM(), r.Y.MM(), r.Length.MM(), r.Width.MM()}
}
