package planfile_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fettle/bot/planfile"
	"fettle/bot/render"
	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/measure"
)

var update = flag.Bool("update", false, "rewrite the golden drawing in testdata")

// small is a plan that no search can change: one board, a rail, a block, a knot.
func small() cutplan.Plan {
	const mm = measure.Millimetre
	return cutplan.Plan{Kerf: 3 * mm, Boards: []cutplan.SawnBoard{{
		Name: "plank", Length: 1000 * mm, Width: 120 * mm, Thickness: 27 * mm,
		Faults: []cutplan.Fault{{Copy: 1, X: 720 * mm, Y: 60 * mm, Length: 30 * mm, Width: 30 * mm}},
		Parts: []cutplan.Placed{
			{Name: "top rail", Length: 700 * mm, Width: 50 * mm},
			{Part: 1, Name: "block", Y: 53 * mm, Length: 700 * mm, Width: 67 * mm},
		},
		Offcuts: []cutplan.Rect{{X: 703 * mm, Length: 297 * mm, Width: 120 * mm}},
		Cuts: []cutplan.Cut{
			{Order: 1, Stage: 1, Across: true, At: 700 * mm, Piece: cutplan.Rect{Length: 1000 * mm, Width: 120 * mm}},
			{Order: 2, Stage: 2, At: 50 * mm, Piece: cutplan.Rect{Length: 700 * mm, Width: 120 * mm}},
		},
	}}}
}

func TestGoldenDrawing(t *testing.T) {
	var got bytes.Buffer
	if err := render.SVG(&got, picture.Phone(small(), measure.Metric)[0]); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/small.svg"
	if *update {
		if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("the drawing is no longer that of %s; look at it and run with -update if it is good", golden)
	}
}

// request plans the lists of a folder.
func request(folder string, out *bytes.Buffer) planfile.Request {
	return planfile.Request{Now: time.Now, Out: out, Limit: 200 * time.Millisecond, JSON: true,
		Job: cutplan.Job{Kerf: 3 * measure.Millimetre, LastRip: true},
		Files: planfile.Files{Parts: filepath.Join(folder, "parts.csv"), Boards: filepath.Join(folder, "boards.csv"),
			Defects: filepath.Join(folder, "defects.csv")}}
}

// plan is what the contract promises of the JSON.
type plan struct {
	Boards []struct {
		Board  string   `json:"board"`
		Length float64  `json:"length_mm"`
		Width  float64  `json:"width_mm"`
		Price  *float64 `json:"price"`
		Parts  []struct {
			Part   string  `json:"part"`
			X      float64 `json:"x_mm"`
			Y      float64 `json:"y_mm"`
			Length float64 `json:"length_mm"`
			Width  float64 `json:"width_mm"`
		} `json:"parts"`
		Offcuts []map[string]float64 `json:"offcuts"`
		Cuts    []struct {
			Order  int     `json:"order"`
			Across *bool   `json:"across"`
			At     float64 `json:"at_mm"`
		} `json:"cuts"`
	} `json:"boards"`
	LeftOut []struct {
		Part     string `json:"part"`
		Quantity int    `json:"quantity"`
		Reason   string `json:"reason"`
	} `json:"left_out"`
	StockArea float64 `json:"stock_area_m2"`
	PartsArea float64 `json:"parts_area_m2"`
	Cost      float64 `json:"cost"`
	Bound     float64 `json:"bound"`
	Proved    bool    `json:"proved"`
	Seconds   float64 `json:"seconds"`
}

// The fifteen jobs of the hut are planned whole, printed, and drawn.
func TestJoineryJobs(t *testing.T) {
	folders, err := filepath.Glob("../../testdata/joinery/hut-*")
	if err != nil || len(folders) != 15 {
		t.Fatalf("%d jobs (%v), want 15", len(folders), err)
	}
	for i, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			var out bytes.Buffer
			r := request(folder, &out)
			r.Draw = filepath.Join(t.TempDir(), "plan."+[]string{"svg", "png", "pdf"}[i%3])
			if err := planfile.Run(t.Context(), r); err != nil {
				t.Fatal(err)
			}
			var p plan
			if err := json.Unmarshal(out.Bytes(), &p); err != nil {
				t.Fatalf("%v in %s", err, out.String())
			}
			if len(p.Boards) == 0 || p.Cost <= 0 || p.Bound > p.Cost+1e-9 || p.PartsArea > p.StockArea {
				t.Errorf("cost %g, bound %g, %d boards, parts %g of %g m²", p.Cost, p.Bound, len(p.Boards), p.PartsArea, p.StockArea)
			}
			checkDrawing(t, r.Draw)
			checkPlaces(t, p)
		})
	}
}

// checkPlaces sees to it that parts lie on their boards and cuts are numbered one by one.
func checkPlaces(t *testing.T, p plan) {
	t.Helper()
	for _, b := range p.Boards {
		if len(b.Parts) == 0 {
			t.Errorf("%s is used for nothing", b.Board)
		}
		for _, part := range b.Parts {
			if part.Part == "" || part.Length <= 0 || part.X < 0 || part.Y < 0 || part.X+part.Length > b.Length || part.Y+part.Width > b.Width {
				t.Errorf("%s: %+v is not on the board", b.Board, part)
			}
		}
		for i, c := range b.Cuts {
			if c.Order != i+1 || c.Across == nil || c.At <= 0 {
				t.Errorf("%s: cut %d is %+v", b.Board, i+1, c)
			}
		}
	}
}

func checkDrawing(t *testing.T, file string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	switch filepath.Ext(file) {
	case ".svg":
		if !bytes.HasPrefix(data, []byte("<svg ")) || !bytes.HasSuffix(data, []byte("</svg>\n")) {
			t.Error("no whole SVG")
		}
	case ".png":
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil || img.Bounds().Dx() < 390 {
			t.Errorf("a picture of %v, %v", img.Bounds(), err)
		}
	default:
		if !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.Contains(data, []byte("%%EOF")) {
			t.Error("no whole PDF")
		}
	}
}

// What is stopped, as by Ctrl-C, still gives a plan.
func TestStoppedAtOnce(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	var out bytes.Buffer
	r := request("../../testdata/joinery/hut-29", &out)
	r.JSON = false
	if err := planfile.Run(ctx, r); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), " parts out of ") {
		t.Errorf("it says %s", out.String())
	}
}

// A part without a board is named with the reason; the rest is planned and drawn.
func TestLeftOut(t *testing.T) {
	folder := t.TempDir()
	write(t, folder, "parts.csv", "name,quantity,length,width,thickness\nrail,1,700,65,27\nbeam,2,5000,65,27\n")
	write(t, folder, "boards.csv", "name,quantity,length,width,thickness,price\nA,1,2000,150,27,\n")
	write(t, folder, "defects.csv", "board,x,y,length,width\n")
	var out bytes.Buffer
	if err := planfile.Run(t.Context(), request(folder, &out)); err != nil {
		t.Fatal(err)
	}
	var p plan
	if err := json.Unmarshal(out.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	if len(p.LeftOut) != 1 || p.LeftOut[0].Part != "beam" || p.LeftOut[0].Quantity != 2 || p.LeftOut[0].Reason == "" {
		t.Errorf("left out: %+v", p.LeftOut)
	}
	if len(p.Boards) != 1 || p.Boards[0].Price != nil {
		t.Errorf("boards: %+v, want one without a price", p.Boards)
	}
}

func write(t *testing.T, folder, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What can't be used is refused in one line that says where, and nothing is drawn or printed.
func TestRefused(t *testing.T) {
	const parts, boards = "name,quantity,length,width,thickness,grain\nrail,1,700,65,27,\n", "name,quantity,length,width,thickness,price\nA,2,2000,150,27,9\n"
	for name, c := range map[string]struct {
		parts, boards, defects, draw string
		limit                        time.Duration
		want                         []string
	}{
		"no number":            {parts: strings.Replace(parts, "65", "wide", 1), want: []string{"parts.csv, line 2, column width"}},
		"below nought":         {parts: strings.Replace(parts, "700", "-700", 1), want: []string{"parts.csv, line 2, column length"}},
		"millions":             {parts: strings.Replace(parts, "rail,1", "rail,4000000", 1), want: []string{"parts.csv, line 2, column quantity"}},
		"no such column":       {boards: strings.Replace(boards, "thickness,", "", 1), want: []string{"boards.csv", "thickness"}},
		"grain":                {parts: strings.Replace(parts, "27,\n", "27,slanting\n", 1), want: []string{"parts.csv, line 2, column grain", "slanting"}},
		"fault off its board":  {defects: "board,x,y,length,width\nA#2,1990,0,20,10\n", want: []string{"defects.csv, line 2, column x"}},
		"fault on no board":    {defects: "board,x,y,length,width\nC,0,0,20,10\n", want: []string{"defects.csv, line 2, column board"}},
		"no format":            {draw: "plan.gif", want: []string{"plan.gif", ".svg, .png or .pdf"}},
		"no folder to draw in": {draw: "nowhere/plan.svg", want: []string{"nowhere"}},
		"no time":              {limit: -time.Second, want: []string{"--limit"}},
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			for file, text := range map[string][2]string{"parts.csv": {c.parts, parts}, "boards.csv": {c.boards, boards}, "defects.csv": {c.defects, "board,x,y,length,width\n"}} {
				if text[0] == "" {
					text[0] = text[1]
				}
				write(t, folder, file, text[0])
			}
			var out bytes.Buffer
			r := request(folder, &out)
			if c.draw != "" {
				r.Draw = filepath.Join(folder, c.draw)
			}
			if c.limit != 0 {
				r.Limit = c.limit
			}
			err := planfile.Run(t.Context(), r)
			var unusable planfile.Unusable
			if !errors.As(err, &unusable) {
				t.Fatalf("the error is %v", err)
			}
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("%q does not say %q", err, want)
				}
			}
			if strings.Contains(err.Error(), "\n") || out.Len() > 0 {
				t.Errorf("more than one line: %q, printed %q", err, out.String())
			}
		})
	}
}
