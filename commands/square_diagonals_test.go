package commands_test

import "testing"

// Diagonals of what is square are by Pythagoras: 900 × 1200 has 1500.
func TestDiagonalsAsTheyAreNamed(t *testing.T) {
	both := func(d, e float64) map[string]any {
		return map[string]any{"width_mm": 900, "height_mm": 1200, "diagonal_mm": d, "diagonal2_mm": e}
	}
	answered(t, "square-check", []request{
		{text: "opening W 900 H 1200, diag A 1502, diag B 1498 - out of square?", given: both(1502, 1498)},
		{text: "width: 900; height: 1200; d1: 1502; d2: 1498; square?", given: both(1502, 1498)},
		{text: "diagonal one 1502, diagonal two 1498, frame 900 by 1200", given: both(1502, 1498)},
		{text: "diagonals 1502/1498 on the 900 x 1200 opening, door is 40 thick", given: both(1502, 1498)},
		{text: "1502/1498 across the corners, 900 x 1200, square?", given: both(1502, 1498)},
		{text: "diags 1502 - 1498, opening 900x1200", given: both(1502, 1498)},
		{text: "frame 900 x 1200, both diagonals 1500. square?", given: both(1500, 1500)},
		{text: "900 x 1200, 1500 both ways corner to corner", given: both(1500, 1500)},
		{text: "1502 one way, 1498 t'other, corner to corner. Frame is 900x1200. Is it true?", given: both(1502, 1498)},
		{text: "diagonals on the 900 x 1200 tray: 1504 before, now 1502 and 1498", given: both(1502, 1498)},
		{text: "hatch opening's 900 by 1200, what should she measure corner to corner?", values: map[string]any{"diagonal_mm": 1500}},
	})
	askedBack(t, "square-check", "door 764 x 1712, diagonals differ by 5, is it square?", "2.5 mm difference between the diagonals on 900 x 1200, how far out?")
}
