package mattermost

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// smallestPart is the shortest limit that split keeps to; no server has one near it.
const smallestPart = 64

// parts gives the posts that an answer is made of: harmless, and each at most limit runes.
func parts(text string, limit int) []string {
	for room := limit; ; {
		posts := split(harmless(text), room)
		over := 0
		for i := range posts {
			posts[i] = harmless(posts[i]) // a cut may have opened a piece of code
			over = max(over, utf8.RuneCountInString(posts[i])-limit)
		}
		if over == 0 || room <= smallestPart {
			return posts
		}
		room -= over
	}
}

// split cuts a Markdown text into parts of at most limit runes. It cuts between paragraphs
// where it can, else between lines, and only within a line that is too long by itself. A
// code block that is cut is closed and opened again, and a table's header is repeated.
func split(text string, limit int) []string {
	if utf8.RuneCountInString(text) <= limit {
		return []string{text}
	}
	s := splitter{limit: max(limit, smallestPart)}
	for line := range strings.SplitSeq(text, "\n") {
		s.add(strings.TrimSuffix(line, "\r"))
	}
	s.emit(len(s.lines), s.closer())
	return s.parts
}

// A splitter fills one part line by line.
type splitter struct {
	limit  int
	parts  []string
	lines  []string // the part so far
	size   int      // its runes, a line end counted with each line
	given  int      // the first so many lines only repeat what stood in the part before
	pause  int      // the number of lines before the last empty line outside code, or 0
	before int      // their size
	opener string   // the line that opened the code block we are in, or ""
	header []string // the two lines that head the table we are in, or nil
}

// add puts a line where it fits: in this part, in the next, or cut over several.
func (s *splitter) add(line string) {
	if s.opener != "" && closesFence(line, s.closer()) {
		line = s.closer() // the room for just that was kept
	}
	for !s.fits(line) {
		if len(s.lines) > s.given {
			s.flush()
			continue
		}
		room := s.limit - s.size - s.closing(line)
		head, rest := cutLine(line, room)
		if s.closing(head) > s.closing(line) { // cut short it opens a code block
			head, rest = cutLine(line, room-s.closing(head))
		}
		s.put(head)
		s.flush()
		line = rest
	}
	s.put(line)
}

func (s *splitter) fits(line string) bool {
	return s.size+utf8.RuneCountInString(line)+s.closing(line) <= s.limit
}

// closing is the room that closing the code block will need once the line is in.
func (s *splitter) closing(line string) int {
	fence := s.closer()
	if fence == "" {
		fence = fenceOf(line)
	} else if closesFence(line, fence) {
		return 0
	}
	if fence == "" {
		return 0
	}
	return len("\n") + len(fence)
}

func (s *splitter) closer() string { return fenceOf(s.opener) }

// fenceOf leaves out fences too long to be repeated; they are treated as any other line.
func fenceOf(line string) string {
	if run := opensFence(line); len(run) <= smallestPart/8 {
		return run
	}
	return ""
}

// put adds a line that fits, and notes where it leads.
func (s *splitter) put(line string) {
	previous := ""
	if len(s.lines) > 0 {
		previous = s.lines[len(s.lines)-1]
	}
	s.lines = append(s.lines, line)
	s.size += utf8.RuneCountInString(line) + 1
	switch {
	case s.opener != "":
		if closesFence(line, s.closer()) {
			s.opener = ""
		}
	case fenceOf(line) != "":
		s.opener, s.header = line, nil
		if utf8.RuneCountInString(line) > smallestPart/4 {
			s.opener = fenceOf(line) // what is said of the code's language is not repeated
		}
	case tableRule.MatchString(line) && strings.Contains(previous, "|") && s.header == nil:
		s.header = []string{previous, line}
	case !strings.Contains(line, "|"):
		s.header = nil
		if strings.TrimSpace(line) == "" && len(s.lines) > s.given {
			s.pause, s.before = len(s.lines), s.size
		}
	}
}

var tableRule = regexp.MustCompile(`^\s*\|?\s*:?-+:?\s*(\|\s*:?-+:?\s*)*\|?\s*$`)

// flush ends the part and begins the next one with what must stand there again.
func (s *splitter) flush() {
	again := s.again()
	switch tail := s.lines[len(s.lines)-min(len(again), len(s.lines)):]; {
	case s.pause > 0 && s.before >= s.limit/2:
		s.carry(s.pause, 0)
	case len(again) > 0 && slices.Equal(tail, again): // nothing of the block stands here yet
		s.carry(len(s.lines)-len(again), len(again))
	default:
		s.emit(len(s.lines), s.closer())
		s.restart(again, len(again))
	}
}

// carry ends the part after n lines and takes the rest along; the first so many lines of it
// are no reason to begin yet another part.
func (s *splitter) carry(n, given int) {
	rest := append([]string(nil), s.lines[n:]...)
	s.emit(n, "")
	s.restart(rest, given)
}

func (s *splitter) restart(lines []string, given int) {
	s.lines, s.given, s.pause, s.before, s.size = lines, given, 0, 0, 0
	for _, line := range lines {
		s.size += utf8.RuneCountInString(line) + 1
	}
}

// again lists the lines that a cut here makes it necessary to repeat.
func (s *splitter) again() []string {
	size := 0
	for _, line := range s.header {
		size += utf8.RuneCountInString(line) + 1
	}
	switch {
	case s.opener != "":
		return []string{s.opener}
	case size > 0 && size <= s.limit/2:
		return append([]string(nil), s.header...)
	default:
		return nil
	}
}

func (s *splitter) emit(n int, closer string) {
	lines := s.lines[:n]
	if closer != "" {
		lines = append(append([]string(nil), lines...), closer)
	}
	part := strings.Trim(strings.Join(lines, "\n"), "\n")
	if strings.TrimSpace(part) != "" {
		s.parts = append(s.parts, part)
	}
}

// cutLine cuts after at most room runes: at a blank in the second half, if there is one.
func cutLine(line string, room int) (head, rest string) {
	at := 0
	for range room {
		_, size := utf8.DecodeRuneInString(line[at:])
		at += size
	}
	if blank := strings.LastIndexByte(line[:at], ' '); blank > at/2 {
		return line[:blank], line[blank+1:]
	}
	return line[:at], line[at:]
}
