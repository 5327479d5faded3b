package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"pgregory.net/rapid"

	"fettle/bot/export"
	"fettle/calc/sketch"
	"fettle/commands/book"
)

func paper(name, remark string) book.Paper {
	drawing := sketch.Sheet{Name: "board", Title: "A board", Width: 390, Height: 100}
	drawing.Add(sketch.Rect(5, 5, 300, 40), sketch.Words(100, 20, 12, "rail"))
	return book.Paper{Project: name, Made: time.Date(2026, 3, 7, 12, 0, 0, 0, time.UTC), Sections: []book.Section{
		{Key: book.SectionParts, Title: "Parts", Columns: []string{"Part", "Quantity", "Remarks"},
			Rows: []book.Row{{Cells: []string{"top rail", "2", remark}, Done: true}}},
		{Key: book.SectionStock, Title: "Stock", Columns: []string{"Board"}, Empty: "No boards yet."},
		{Key: book.SectionPlan, Title: "Plan", Columns: []string{"Board"}, Drawings: []sketch.Sheet{drawing}},
	}}
}

func written(t testing.TB, format string, p book.Paper) string {
	t.Helper()
	var b bytes.Buffer
	if err := export.Write(&b, format, p); err != nil {
		t.Fatalf("%s: %v", format, err)
	}
	return b.String()
}

// What people wrote comes out of every format as it went in, and does nothing there.
func TestTextsComeThrough(t *testing.T) {
	const nasty = `<script>alert("x")</script> | =1+1 **bold** Łódź ½`
	p := paper("wagon & co <b>", nasty)

	page, err := goquery.NewDocumentFromReader(strings.NewReader(written(t, export.HTML, p)))
	if err != nil {
		t.Fatal(err)
	}
	if got := page.Find("#parts tbody td").Eq(2).Text(); got != nasty {
		t.Errorf("HTML shows %q", got)
	}
	if n := page.Find("script").Length(); n != 0 {
		t.Errorf("HTML has %d scripts", n)
	}
	if page.Find("#plan svg").Length() != 1 || page.Find("[src], link").Length() != 0 {
		t.Error("the page lacks its drawing, or fetches something")
	}

	var data struct {
		Sections []struct {
			Lines []map[string]string `json:"lines"`
		} `json:"sections"`
	}
	if err := json.Unmarshal([]byte(written(t, export.JSON, p)), &data); err != nil {
		t.Fatal(err)
	}
	if got := data.Sections[0].Lines[0]["Remarks"]; got != nasty {
		t.Errorf("JSON holds %q", got)
	}

	if md := written(t, export.Markdown, p); strings.Contains(md, "<script>") || strings.Contains(md, "**bold") || !strings.Contains(md, "Łódź ½") {
		t.Errorf("Markdown: %s", md)
	}
	if pdf := written(t, export.PDF, p); !strings.HasPrefix(pdf, "%PDF-") || len(pdf) < 2000 {
		t.Errorf("PDF of %d bytes", len(pdf))
	}
}

// A spreadsheet opens the list without taking a name for a formula.
func TestNoFormulaInTheList(t *testing.T) {
	for in, want := range map[string]string{"=HYPERLINK(1)": "'=HYPERLINK(1)", "@x": "'@x", "-12.5": "-12.5", "-1+2": "'-1+2", "rail": "rail", "": ""} {
		rows, err := csv.NewReader(strings.NewReader(written(t, export.CSV, paper("hut", in)))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if got := rows[1][3]; rows[1][0] != "parts" || got != want {
			t.Errorf("%q stands as %q in %v", in, got, rows[1])
		}
	}
}

// Every line of a long book is in the document and in the list, whatever it says.
func TestNothingIsLeftOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringMatching(`[a-zA-Z0-9 łß½"<,;|\n-]{0,200}`)
		var rows []book.Row
		for range rapid.IntRange(0, 120).Draw(t, "rows") {
			rows = append(rows, book.Row{Cells: []string{cell.Draw(t, "a"), cell.Draw(t, "b"), cell.Draw(t, "c")}})
		}
		p := paper("hut", "x")
		p.Sections[0].Rows = rows
		var b bytes.Buffer
		for _, f := range export.Formats() {
			b.Reset()
			if err := export.Write(&b, f, p); err != nil {
				t.Fatalf("%s: %v", f, err)
			}
			if f == export.CSV {
				all, err := csv.NewReader(&b).ReadAll()
				if err != nil || len(all) != len(rows)+3 {
					t.Fatalf("%d lines of %d in the list (%v)", len(all), len(rows)+3, err)
				}
			}
		}
	})
}

func TestUnknownFormat(t *testing.T) {
	if err := export.Write(&bytes.Buffer{}, "docx", paper("hut", "")); err == nil || !strings.Contains(err.Error(), "md, csv, html, pdf, json") {
		t.Errorf("error %v", err)
	}
}
