package commands_test

import (
	"strings"
	"testing"
)

// A correction of a correction leaves one part, and undo goes back by one word at a time.
func TestCorrectionsOfCorrections(t *testing.T) {
	k := talking(t)
	k.says("add 2 stiles 1720 x 92 x 40")
	for _, size := range []string{"1702", "1703", "1704", "1705"} {
		k.wants("no, "+size, "part", "Added 2 × stile "+size+" × 92 × 40 mm", "1 part, 2 pieces", "!already")
	}
	k.wants("show the parts", "parts", "2 × stile 1705", "!stile 2")
	k.wants("undo", "undo", "Taken back: stile")
	k.wants("show the parts", "parts", "2 × stile 1704", "!stile 2")

	k.says("add 3 rails 640 x 92 x 40")
	k.wants("no, 4", "part", "4 × rail 640")
	k.wants("no, 95", "part", "4 × rail 640 × 95")
	k.wants("sorry, 610 long", "part", "4 × rail 610 × 95")
	if list := k.says("show the parts").Text; strings.Count(list, "rail") != 1 || !strings.Contains(list, "4 × rail 610 × 95 × 40") {
		t.Error(list)
	}
	k.says("sill measures 915")
	k.says("no, 925")
	k.wants("no, 935", "measure", "935", "!which stands")
}
