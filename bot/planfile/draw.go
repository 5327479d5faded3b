package planfile

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fettle/bot/render"
	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/sketch"
)

// canDraw says before the planning whether a drawing could be written to a file.
func canDraw(file string) error {
	switch ending(file) {
	case ".svg", ".png", ".pdf":
	default:
		return fmt.Errorf("--draw %s: the name must end in .svg, .png or .pdf", file)
	}
	folder, err := os.Stat(filepath.Dir(file))
	if err == nil && !folder.IsDir() {
		err = fmt.Errorf("%s is no folder", filepath.Dir(file))
	}
	if err != nil {
		return fmt.Errorf("--draw %s: %w", file, err)
	}
	return nil
}

func ending(file string) string { return strings.ToLower(filepath.Ext(file)) }

// draw writes the picture of a plan: a PDF has pages for the wall, an SVG or PNG all boards
// below each other for a phone.
func draw(file string, plan cutplan.Plan, now time.Time) error {
	var b bytes.Buffer
	var err error
	switch ending(file) {
	case ".pdf":
		err = render.PDF(&b, "Cut plan", now, picture.Paper(plan, mm)...)
	case ".svg":
		err = render.SVG(&b, tall(plan))
	default:
		s := tall(plan)
		err = render.PNG(&b, s, math.Min(2, math.Sqrt(render.MostPixels/(s.Width*s.Height))*0.99))
	}
	if err != nil {
		return fmt.Errorf("draw %d boards (a PDF takes any number): %w", len(plan.Boards), err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("write the drawing: %w", err)
	}
	return nil
}

// tall is one sheet with all boards, or with why there are none.
func tall(plan cutplan.Plan) sketch.Sheet {
	sheets := picture.Phone(plan, mm)
	if len(sheets) == 0 {
		sheets = picture.Paper(plan, mm)
	}
	return picture.Together("cut plan", fmt.Sprintf("Cut plan, %d boards", len(plan.Boards)), sheets)
}
