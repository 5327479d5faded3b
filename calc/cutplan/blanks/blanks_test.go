package blanks_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/blanks"
	"fettle/calc/cutplan/replay"
	"fettle/calc/measure"
	"fettle/calc/rough"
)

const mm = measure.Millimetre

func shop() blanks.Shop {
	return blanks.Shop{Allow: rough.Default(), Limits: rough.DefaultLimits(), Widest: 250 * mm, SideMost: measure.Metre, Kerf: 3 * mm}
}

func made(t *testing.T, job blanks.Job) blanks.Planned {
	t.Helper()
	got, err := blanks.Make(context.Background(), job, cutplan.Limits{Nodes: 60_000})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func anyJob(t *rapid.T) blanks.Job {
	length := func(name string, lo, hi int64) measure.Length {
		return measure.Length(rapid.Int64Range(lo, hi).Draw(t, name)) * mm
	}
	job := blanks.Job{Shop: shop()}
	species := rapid.SampledFrom([]string{"", "oak", "ash"})
	for i := range rapid.IntRange(1, 4).Draw(t, "parts") {
		job.Parts = append(job.Parts, blanks.Part{Name: fmt.Sprintf("p%d", i), Quantity: rapid.IntRange(0, 5).Draw(t, "quantity"),
			Length: length("l", 60, 2600), Width: length("w", 20, 120), Thickness: rapid.SampledFrom([]measure.Length{18 * mm, 22 * mm, 40 * mm}).Draw(t, "t"), Species: species.Draw(t, "species")})
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "boards") {
		b := cutplan.Board{Name: fmt.Sprintf("b%d", i), Quantity: rapid.IntRange(1, 2).Draw(t, "copies"), Length: length("L", 900, 3000), Width: length("W", 90, 260),
			Thickness: rapid.SampledFrom([]measure.Length{18 * mm, 27 * mm, 32 * mm, 52 * mm}).Draw(t, "T"), Species: species.Draw(t, "timber")}
		b.Sheet = b.Thickness == 18*mm
		if b.Sheet {
			b.Species = "plywood"
		}
		job.Boards = append(job.Boards, b)
	}
	return job
}

// Every piece is in one blank or is left out; a blank holds its pieces with kerfs and the
// allowances, on boards that are thick enough; and the plan can be sawn.
func TestEveryPieceIsThereOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		got, err := blanks.Make(context.Background(), job, cutplan.Limits{Nodes: 3000})
		if err != nil {
			t.Fatal(err)
		}
		if err := replay.Check(got.Cut, got.Plan); err != nil {
			t.Fatal(err)
		}
		count := make([]int, len(job.Parts))
		for _, l := range got.LeftOut {
			if l.Quantity < 1 || l.Reason == "" {
				t.Fatalf("left out: %+v", l)
			}
			count[l.Part] += l.Quantity
		}
		for _, b := range got.Plan.Boards {
			for part, n := range got.Made(b) {
				count[part] += n
				if p, from := job.Parts[part], job.Boards[b.Board]; p.Species != "" && from.Species != "" && p.Species != from.Species {
					t.Fatalf("%s of %s comes from %s", p.Name, p.Species, from.Species)
				}
			}
		}
		for i, p := range job.Parts {
			if count[i] != p.Quantity {
				t.Fatalf("%d of %s are made or left out, and there are %d", count[i], p.Name, p.Quantity)
			}
		}
		for _, b := range got.Blanks {
			sized(t, job, b)
		}
	})
}

func sized(t *rapid.T, job blanks.Job, b blanks.Blank) {
	var along, across, longest, widest measure.Length
	kerfs := measure.Length(len(b.Parts)-1) * job.Shop.Kerf
	for _, i := range b.Parts {
		p := job.Parts[i]
		along, across = along+p.Length, across+p.Width
		longest, widest = max(longest, p.Length), max(widest, p.Width)
		if b.Species == "plywood" && (b.Thickness != p.Thickness || b.Length != p.Length || b.Width != p.Width) {
			t.Fatalf("%+v is not cut to size from a sheet: %+v", p, b)
		}
		if b.Species != "plywood" && b.Thickness < p.Thickness+job.Shop.Allow.Thickness {
			t.Fatalf("%+v does not come out of %+v", p, b)
		}
	}
	if b.Species == "plywood" {
		return
	}
	if b.Way == blanks.Sides {
		along, across = longest, across+kerfs
	} else {
		along, across = along+kerfs, widest
	}
	want := max(along+job.Shop.Allow.Length, job.Shop.Limits.MachineMinimum)
	if b.Length != want || b.Width != across+job.Shop.Allow.Width {
		t.Fatalf("%+v should be %v × %v", b, want, across+job.Shop.Allow.Width)
	}
	if len(b.Parts) > 1 && b.Length > job.Shop.Limits.LongestBlank {
		t.Fatalf("%+v is longer than a blank may be", b)
	}
	if b.Way == blanks.Sides && len(b.Parts) > 1 && (b.Width > job.Shop.Widest || longest > job.Shop.SideMost) {
		t.Fatalf("%+v is wider than a blank may be, or too long to be ripped after planing", b)
	}
}

// Panels wider than every board come as staves: as many as make them whole, the widths together no
// less than the panel, each stave with the allowance and the grain along the length, and no stave too
// many. What is not glued up comes out as it did.
func TestWidePartsAreGluedUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		job.Shop.GlueUp = true
		for i := range job.Parts {
			if rapid.Bool().Draw(t, "wide") {
				job.Parts[i].Width = measure.Length(rapid.Int64Range(250, 900).Draw(t, "W")) * mm
			}
			job.Parts[i].Free = rapid.IntRange(0, 4).Draw(t, "free") == 0
		}
		got, err := blanks.Make(context.Background(), job, cutplan.Limits{Nodes: 3000})
		if err != nil {
			t.Fatal(err)
		}
		if err := replay.Check(got.Cut, got.Plan); err != nil {
			t.Fatal(err)
		}
		pieces, staves, of := make([]int, len(job.Parts)), map[int]int{}, map[int]int{}
		for _, l := range got.LeftOut {
			pieces[l.Part] += l.Quantity
		}
		for _, b := range got.Plan.Boards {
			for part, n := range got.Made(b) {
				pieces[part] += n
			}
			for _, placed := range b.Parts {
				if blank := got.Blanks[placed.Part]; blank.Stave.Of > 0 {
					staves[placed.Part]++
				}
			}
		}
		for i, n := range staves {
			b := got.Blanks[i]
			p := job.Parts[b.Parts[0]]
			if n%b.Stave.Of != 0 || len(b.Parts) != 1 || p.Free || b.Species == "plywood" {
				t.Fatalf("%d staves of %+v", n, b)
			}
			if b.Width != b.Stave.Width+job.Shop.Allow.Width || measure.Length(b.Stave.Of)*b.Stave.Width < p.Width || b.Length < p.Length+job.Shop.Allow.Length || b.Thickness < p.Thickness+job.Shop.Allow.Thickness {
				t.Fatalf("%+v does not make %+v", b, p)
			}
			pieces[b.Parts[0]] += n / b.Stave.Of
			of[b.Parts[0]] = b.Stave.Of
		}
		for i, p := range job.Parts {
			if pieces[i] != p.Quantity {
				t.Fatalf("%d of %+v are made or left out (staves %v)", pieces[i], p, of)
			}
		}
	})
}

// A panel 470 wide from boards of 200: 200 − 20 is the widest stave, so three of 470 / 3 = 156.67,
// rounded up to 157, and each is sawn at 177.
func TestStavesOfAPanel(t *testing.T) {
	panel := blanks.Part{Name: "panel", Quantity: 1, Length: 700 * mm, Width: 470 * mm, Thickness: 18 * mm, Species: "oak"}
	job := blanks.Job{Shop: shop(), Parts: []blanks.Part{panel}, Boards: []cutplan.Board{{Name: "thick", Quantity: 2, Length: 2600 * mm, Width: 300 * mm, Thickness: 52 * mm, Species: "oak"}, {Name: "oak", Quantity: 1, Length: 2600 * mm, Width: 200 * mm, Thickness: 27 * mm, Species: "oak"}}}
	job.Shop.GlueUp = true
	got := made(t, job)
	if len(got.LeftOut) != 0 || len(got.Blanks) != 1 || got.Blanks[0].Name != "panel stave" || got.Blanks[0].Quantity != 3 || got.Blanks[0].Width != 177*mm || got.Blanks[0].Stave.Of != 3 || got.Plan.Boards[0].Name != "oak" {
		t.Errorf("%+v, left out %+v", got.Blanks, got.LeftOut)
	}
	job.Parts[0].Loose = blanks.Staves{Of: 3, Count: 2, Width: 157 * mm}
	if got := made(t, job); len(got.Blanks) != 1 || got.Blanks[0].Quantity != 1 {
		t.Errorf("with two staves cut: %+v", got.Blanks)
	}
	job.Parts[0].Loose = blanks.Staves{}
	job.Boards = []cutplan.Board{{Name: "oak", Quantity: 1, Length: 1700 * mm, Width: 200 * mm, Thickness: 27 * mm, Species: "oak"}} // room for two staves of 800
	if got := made(t, job); len(got.LeftOut) != 1 || got.LeftOut[0].Quantity != 1 || len(got.Plan.Boards) != 0 {
		t.Errorf("a panel that lacks a stave: %+v, boards %d", got.LeftOut, len(got.Plan.Boards))
	}
	job.Shop.GlueUp = false
	if got := made(t, job); len(got.LeftOut) != 1 || got.LeftOut[0].Staves != 3 {
		t.Errorf("not glued up: %+v", got.LeftOut)
	}
}

// A part that is planed comes from a board and never from a sheet of that thickness, one of the
// sheet's thickness may come from the sheet as it is; also where nobody said of what timber they are.
func TestPlanedPartsDoNotComeFromSheets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		for i := range job.Boards {
			job.Boards[i].Species = ""
			job.Boards[i].Sheet = rapid.Bool().Draw(t, "sheet")
		}
		for i := range job.Parts {
			job.Parts[i].Species = ""
			job.Parts[i].Thickness = rapid.SampledFrom([]measure.Length{13 * mm, 18 * mm, 27 * mm}).Draw(t, "finished")
		}
		got, err := blanks.Make(context.Background(), job, cutplan.Limits{Nodes: 500})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range got.Plan.Boards {
			from := job.Boards[b.Board]
			for part := range got.Made(b) {
				if p := job.Parts[part]; from.Sheet && p.Thickness != from.Thickness || !from.Sheet && p.Thickness+job.Shop.Allow.Thickness > from.Thickness {
					t.Fatalf("%+v comes from %+v", p, from)
				}
			}
		}
	})
}

// Two rails 92 wide side by side are 92 + 3 + 92 + 20 = 207 wide and just fit a board of 210,
// where two blanks of 112 do not: so a board is saved.
func TestSideBySideSavesABoard(t *testing.T) {
	job := blanks.Job{Shop: shop(),
		Parts: []blanks.Part{
			{Name: "stile", Quantity: 2, Length: 1720 * mm, Width: 92 * mm, Thickness: 40 * mm, Species: "sapele"},
			{Name: "rail", Quantity: 3, Length: 640 * mm, Width: 92 * mm, Thickness: 40 * mm, Species: "sapele"}},
		Boards: []cutplan.Board{{Name: "sapele", Quantity: 3, Length: 2600 * mm, Width: 210 * mm, Thickness: 52 * mm, Species: "sapele", Price: 48, Priced: true}}}
	got := made(t, job)
	if len(got.LeftOut) != 0 || len(got.Plan.Boards) != 2 || got.Plan.Cost != 96 || !got.Plan.Proved {
		t.Fatalf("%d boards, %v, left out %+v", len(got.Plan.Boards), got.Plan.Cost, got.LeftOut)
	}
	job.Shop.Widest = 200 * mm
	if got := made(t, job); len(got.Plan.Boards) != 3 {
		t.Fatalf("%d boards without room for two side by side", len(got.Plan.Boards))
	}
}

// Six blocks of 150 are one blank of 6 × 150 + 5 × 3 + 100 = 1015 and not six of 300, the shortest
// that goes through the machines.
func TestShortPartsEndToEnd(t *testing.T) {
	got := made(t, blanks.Job{Shop: shop(), Parts: []blanks.Part{{Name: "block", Quantity: 6, Length: 150 * mm, Width: 60 * mm, Thickness: 22 * mm}},
		Boards: []cutplan.Board{{Name: "oak", Quantity: 1, Length: 1100 * mm, Width: 85 * mm, Thickness: 27 * mm}}})
	if len(got.LeftOut) != 0 || len(got.Blanks) != 1 || got.Blanks[0].Length != 1015*mm || got.Blanks[0].Name != "block ×6" {
		t.Fatalf("%+v, left out %+v", got.Blanks, got.LeftOut)
	}
}

// The thinnest boards that do come first; what has no room there comes from thicker ones.
func TestThickerBoardsWhereTheThinAreUsedUp(t *testing.T) {
	got := made(t, blanks.Job{Shop: shop(), Parts: []blanks.Part{{Name: "rail", Quantity: 3, Length: 1700 * mm, Width: 70 * mm, Thickness: 22 * mm}},
		Boards: []cutplan.Board{{Name: "thick", Quantity: 2, Length: 2000 * mm, Width: 100 * mm, Thickness: 40 * mm}, {Name: "thin", Quantity: 2, Length: 2000 * mm, Width: 100 * mm, Thickness: 27 * mm}, {Name: "too thin", Quantity: 2, Length: 2000 * mm, Width: 100 * mm, Thickness: 26 * mm}}})
	used := map[string]int{}
	for _, b := range got.Plan.Boards {
		used[got.Cut.Boards[b.Board].Name]++
	}
	if len(got.LeftOut) != 0 || used["thin"] != 2 || used["thick"] != 1 {
		t.Fatalf("%v, left out %+v", used, got.LeftOut)
	}
}

func TestWhyAPartIsLeftOut(t *testing.T) {
	board := []cutplan.Board{{Name: "oak", Quantity: 1, Length: 2000 * mm, Width: 100 * mm, Thickness: 27 * mm, Species: "oak"}}
	for want, c := range map[string]struct {
		part   blanks.Part
		boards []cutplan.Board
	}{
		"There are no boards.":                                                    {blanks.Part{Length: 900 * mm, Width: 50 * mm, Thickness: 22 * mm}, nil},
		"One of its sizes is not known.":                                          {blanks.Part{Length: 900 * mm, Width: 50 * mm}, board},
		"There is no ash.":                                                        {blanks.Part{Length: 900 * mm, Width: 50 * mm, Thickness: 22 * mm, Species: "ash"}, board},
		"No board of it is thick enough: it takes 28 mm.":                         {blanks.Part{Length: 900 * mm, Width: 50 * mm, Thickness: 23 * mm}, board},
		"No board that is thick enough is long enough: it takes 2001 mm.":         {blanks.Part{Length: 1901 * mm, Width: 50 * mm, Thickness: 22 * mm}, board},
		"No board that is thick and long enough is wide enough: it takes 101 mm.": {blanks.Part{Length: 1900 * mm, Width: 81 * mm, Thickness: 22 * mm}, board},
	} {
		c.part.Name, c.part.Quantity = "rail", 2
		got := made(t, blanks.Job{Shop: shop(), Parts: []blanks.Part{c.part}, Boards: c.boards})
		if len(got.LeftOut) != 1 || got.LeftOut[0].Quantity != 2 || got.LeftOut[0].Reason != want {
			t.Errorf("%+v, want %q", got.LeftOut, want)
		}
	}
}

func TestNodesMustBeLimited(t *testing.T) {
	if _, err := blanks.Make(context.Background(), blanks.Job{Shop: shop()}, cutplan.Limits{}); err == nil {
		t.Error("no error")
	}
}
