package picture_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

const mm = measure.Millimetre

// worked is a board sawn by hand on paper: one rail of 700 × 50, a block of 200 × 40 trimmed out
// of a strip that starts behind a knot.
func worked() cutplan.Plan {
	rect := func(x, y, l, w measure.Length) cutplan.Rect {
		return cutplan.Rect{X: x * mm, Y: y * mm, Length: l * mm, Width: w * mm}
	}
	return cutplan.Plan{Kerf: 3 * mm, Cost: 7.5, Bound: 7.5, Priced: true, Proved: true, StockArea: 0.12, PartsArea: 0.043, Boards: []cutplan.SawnBoard{{
		Name: "plank", Length: 1000 * mm, Width: 120 * mm, Thickness: 27 * mm, Price: 7.5,
		Faults: []cutplan.Fault{{Copy: 1, X: 20 * mm, Y: 60 * mm, Length: 30 * mm, Width: 30 * mm}},
		Parts: []cutplan.Placed{
			{Part: 0, Name: "top rail", X: 0, Y: 0, Length: 700 * mm, Width: 50 * mm},
			{Part: 1, Name: "block", X: 60 * mm, Y: 53 * mm, Length: 200 * mm, Width: 40 * mm},
		},
		Offcuts: []cutplan.Rect{rect(703, 0, 297, 120), rect(0, 53, 57, 67), rect(263, 53, 437, 67), rect(60, 96, 200, 24)},
		Cuts: []cutplan.Cut{
			{Order: 1, Stage: 1, Across: true, At: 700 * mm, Piece: rect(0, 0, 1000, 120)},
			{Order: 2, Stage: 2, At: 50 * mm, Piece: rect(0, 0, 700, 120)},
			{Order: 3, Stage: 3, Across: true, At: 60 * mm, Starts: true, Piece: rect(0, 53, 700, 67)},
			{Order: 4, Stage: 3, Across: true, At: 260 * mm, Piece: rect(60, 53, 640, 67)},
			{Order: 5, Stage: 4, At: 93 * mm, Piece: rect(60, 53, 200, 67)},
		},
	}}}
}

func TestSteps(t *testing.T) {
	want := []string{
		"crosscut at 700 → 700 long",
		"rip A at 50 → 50 wide",
		"crosscut A2 at 60 → keep beyond",
		"crosscut A2 at 260 → 200 long",
		"rip A2 at 40 → block",
	}
	var got []string
	for _, s := range picture.Steps(worked().Boards[0], 3*mm) {
		got = append(got, s.Text(measure.Metric)+" → "+s.Result(measure.Metric))
	}
	if !slices.Equal(got, want) {
		t.Errorf("the steps are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestStepsInInches(t *testing.T) {
	if got := picture.Steps(worked().Boards[0], 3*mm)[0].Text(measure.Imperial); got != "crosscut at 27 9/16" {
		t.Errorf("700 mm is %q", got)
	}
}

// Worth keeping is what is large enough and clear of faults for long enough.
// Where inches are talked no sheet and no line of a plan has mm, with a kerf that no inch rule shows.
func TestDrawingsInInches(t *testing.T) {
	plan := worked()
	plan.Trim = 20 * mm
	var texts []string
	for _, sheet := range append(picture.Phone(plan, measure.Imperial), picture.Paper(plan, measure.Imperial)...) {
		texts = append(texts, sheet.Title)
		for _, s := range sheet.Shapes {
			texts = append(texts, s.Text)
		}
	}
	texts = append(append(texts, picture.Verdict(plan, measure.Imperial)...), picture.Keeping(plan.Boards[0], measure.Imperial), picture.Heading(plan.Boards[0], measure.Imperial))
	for _, text := range texts {
		if strings.Contains(" "+text+" ", " mm ") || strings.Contains(text, " mm,") {
			t.Errorf("in inches: %q", text)
		}
	}
	if all := strings.Join(texts, "\n"); !strings.Contains(all, "kerf 0.118 in") || !strings.Contains(all, "39 3/8") {
		t.Errorf("the texts are\n%s", all)
	}
}

func TestKeeping(t *testing.T) {
	b := worked().Boards[0]
	if got, want := picture.Keeping(b, measure.Metric), "297 × 120, 437 × 67"; got != want {
		t.Errorf("kept: %s, want %s", got, want)
	}
	b.Faults = append(b.Faults, cutplan.Fault{Copy: 1, X: 800 * mm, Y: 50 * mm, Length: 10 * mm, Width: 10 * mm})
	if got, want := picture.Keeping(b, measure.Metric), "437 × 67"; got != want {
		t.Errorf("with a knot in the middle of one, kept: %s, want %s", got, want)
	}
}

func texts(s sketch.Sheet) (all []string) {
	for _, shape := range s.Shapes {
		if shape.Kind == sketch.Label {
			all = append(all, shape.Text)
		}
	}
	return all
}

// A drawing says all that one saws by: the board, kerf and scale, the numbers of the cuts, the
// running measures, the names, what is kept.
func TestDrawingsSayIt(t *testing.T) {
	paper := picture.Paper(worked(), measure.Metric)
	if len(paper) != 2 {
		t.Fatalf("%d sheets, want a summary and a board", len(paper))
	}
	for _, s := range []sketch.Sheet{picture.Phone(worked(), measure.Metric)[0], paper[1]} {
		said := strings.Join(texts(s), "\n")
		for _, want := range []string{"plank   1000 × 120 × 27 mm", "kerf 3 mm, scale 1:", "\n700\n", "\n1000\n", "top rail", "700 × 50",
			"A", "A1", "A2", "297 × 120", "rip A at 50", "keep beyond", "left end", "lower edge, grain along it", "fault", "waste"} {
			if !strings.Contains(said, want) {
				t.Errorf("the sheet %q of width %g does not say %q:\n%s", s.Name, s.Width, want, said)
			}
		}
		for n := range 5 {
			number, count := string(rune('1'+n)), 0
			for _, text := range texts(s) {
				if text == number {
					count++
				}
			}
			if count < 2 {
				t.Errorf("cut %s is there %d times, want in the drawing and in the list", number, count)
			}
		}
	}
	if said := strings.Join(texts(paper[0]), "\n"); !strings.Contains(said, "Proved") || !strings.Contains(said, "7.50") || !strings.Contains(said, "1 top rail, 1 block") {
		t.Errorf("the summary says\n%s", said)
	}
}

// Whatever the job, nothing is drawn outside its sheet, and each part is drawn to scale.
func TestDrawingsStayOnTheirSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := cutplan.Job{Kerf: measure.Length(rapid.IntRange(0, 5).Draw(t, "kerf")) * mm, LastRip: true}
		length := func(name string, least, most int) measure.Length {
			return measure.Length(rapid.IntRange(least, most).Draw(t, name)) * mm
		}
		board := cutplan.Board{Name: "board", Quantity: 2, Length: length("length", 300, 4000), Width: length("width", 30, 400), Thickness: 20 * mm}
		board.Faults = []cutplan.Fault{{Copy: 1, X: 10 * mm, Y: 5 * mm, Length: length("fault", 1, 200), Width: 10 * mm}}
		job.Boards = []cutplan.Board{board}
		for i, name := range []string{"rail", "a long name of a part that nobody would give", "ß"} {
			job.Parts = append(job.Parts, cutplan.Part{Name: name, Quantity: rapid.IntRange(1, 5).Draw(t, "quantity"),
				Length: length("part length", 20, 900), Width: length("part width", 5, 200), Thickness: measure.Length(20+i/3) * mm})
		}
		plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range []measure.System{measure.Metric, measure.Imperial} {
			for _, s := range append(picture.Phone(plan, in), picture.Paper(plan, in)...) {
				for _, shape := range s.Shapes {
					for _, p := range shape.Points {
						if !(p.X >= 0 && p.X <= s.Width && p.Y >= 0 && p.Y <= s.Height) {
							t.Fatalf("%s: %s %q at %v is outside %g × %g", s.Name, shape.Kind, shape.Text, p, s.Width, s.Height)
						}
					}
				}
			}
		}
	})
}
