package room

// TakeApart gives the parts of an answer's text, joined again, for the fuzzer.
func TakeApart(text string) (headline, read string, lines, cautions []string) {
	s := takeApart(text)
	return s.Headline, s.Read, s.Lines, s.Cautions
}

// Rendered is an answer's Markdown as HTML.
func Rendered(text string) string { return string(rendered(text)) }

// ReadName cuts the program's name out of a message.
func ReadName(text string) (string, bool) { return readName(text) }

// Repaint writes a picture anew.
func Repaint(data []byte) ([]byte, error) { return repaint(data) }
