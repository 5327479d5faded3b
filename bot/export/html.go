package export

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"

	"fettle/bot/render"
	"fettle/calc/sketch"
	"fettle/commands/book"
)

//go:embed book.html
var bookPage string

var page = template.Must(template.New("book").Funcs(template.FuncMap{"made": made, "draw": draw}).Parse(bookPage))

// html writes the book as one page that holds everything it shows, for a screen and for paper.
func html(w io.Writer, p book.Paper) error {
	if err := page.Execute(w, p); err != nil {
		return fmt.Errorf("write the book as a page: %w", err)
	}
	return nil
}

// draw puts a drawing into the page. The renderer escapes what people wrote.
func draw(s sketch.Sheet) (template.HTML, error) {
	var b bytes.Buffer
	if err := render.SVG(&b, s); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}
