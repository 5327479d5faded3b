package commands_test

import "testing"

// Messages that hold sizes of the board, of the window or of what was bought beside those that are
// asked about. Pitches are (span − 2 ends) / gaps, offsets width × tan, diagonals Pythagoras, radii
// c²/8s + s/2, unequal mitres the line from the inner to the outer corner, all worked out apart.
func TestSizesOfOtherThings(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"the batten is 20 thick, 45 wide and 900 long, I want 4 hooks on it evenly with the outer ones 60 from the ends, where do they go", "spacing", cutValues{"given span_mm": 900, "given end_mm": 60, "pitch_mm": 260}},
		{"6 screws along a strip 30 wide and 780 long, 40 in from each end, positions?", "spacing", cutValues{"given span_mm": 780, "pitch_mm": 140}},
		{"a rail 70 wide and 22 thick is 1100 long, 5 pegs spaced evenly, 80 in from the ends", "spacing", cutValues{"given span_mm": 1100, "pitch_mm": 235}},
		{"the shelf is 180 deep and 24 thick and 960 wide, space 5 hooks evenly under it, 80 from each end", "spacing", cutValues{"given span_mm": 960, "pitch_mm": 200}},
		{"opening is 900 wide, 7 slats of 60 mm width, equal gaps", "spacing", cutValues{"given span_mm": 900, "given item_mm": 60, "gap_mm": 60}},
		{"three rails 70 wide evenly spaced in a door 1700 high, gap?", "spacing", cutValues{"given span_mm": 1700, "given item_mm": 70}},
		{"12 balusters 40 mm wide, handrail runs 1650 between the posts, the posts are 90 thick", "spacing", cutValues{"given item_mm": 40, "gap_mm": 90}},
		{"battens 38 wide, no gap bigger than 60, length to cover 1500", "spacing", cutValues{"given item_mm": 38, "given span_mm": 1500}},
		{"pilot for a 4 mm screw, top piece 18, bottom piece 30, both oak", "screw", cutValues{"given screw_mm": 4, "given thickness_mm": 18, "given into_mm": 30}},
		{"4.5 mm screws at 200 centres, upper board is 22 and lower board is 40, larch. pilot and clearance?", "screw", cutValues{"given screw_mm": 4.5, "given thickness_mm": 22, "given into_mm": 40}},
		{"screw's a 5 mm, through 20 of larch into 45 of oak, pilot?", "screw", cutValues{"given screw_mm": 5, "given thickness_mm": 20, "given into_mm": 45}},
		{"a box of 200 screws 5 x 70 cost 14 quid. larch 28 thick onto a bearer of 60. pilot?", "screw", cutValues{"given screw_mm": 5, "given thickness_mm": 28, "given into_mm": 60}},
		{"no. 10 into oak, piece on top is 25 thick, pilot?", "screw", cutValues{"given gauge": 10, "given thickness_mm": 25}},
		{"window 61 cm by 45 cm, corner reads 89.2 degrees, both trims 5.5 cm wide. mitre?", "mitre", cutValues{"given angle_deg": 89.2, "given width_mm": 55, "mitre_deg": 44.6}},
		{"i need mitre angles for a five sided window trim, 45 wide, 2 m of it cost 8 pounds", "mitre", cutValues{"given sides": 5, "given width_mm": 45, "saw_deg": 36}},
		{"95 degree corner, first trim 60 wide, the second 45, both 18 thick. mitre on each?", "mitre", cutValues{"given width2_mm": 45, "mitre_deg": 56.36115, "mitre2_deg": 38.63885}},
		{"corner's 94 degrees, this trim's 80 wide and t'other's 55. mitres?", "mitre", cutValues{"given width2_mm": 55, "mitre_deg": 58.23206}},
		{"the board is 12 cm wide and 2.2 m long, end cut at 87 degrees. offset?", "taper", cutValues{"given width_mm": 120, "offset_mm": 6.288934}},
		{"rail 900 long, 22 thick, 68 wide, the end is 2 degrees off square, how much is that across it", "taper", cutValues{"given width_mm": 68, "offset_mm": 2.374612}},
		{"stile's 95 wide by 1650 tall, the head leans at 3 degrees, what's the offset across it", "taper", cutValues{"given off_deg": 3, "offset_mm": 4.978739}},
		{"leg tapers from 50 to 30 over 450, 700 long in all", "taper", cutValues{"given width_mm": 450, "off_deg": 2.544804}},
		{"door frame 640 by 1800, made of 45 thick larch, what should the diagonals be", "square-check", cutValues{"diagonal_mm": 1910.39263}},
		{"my board is 1500 long, 180 wide and 22 thick, the curve rises 90 and goes 1200 across, radius?", "arc", cutValues{"given chord_mm": 1200, "radius_mm": 2045}},
		{"chord 1800, rise 250, section 45 x 20, arc length?", "arc", cutValues{"radius_mm": 1745}},
		{"roof bow spans 1.9 m and is 230 high in the middle, made of 60 by 40 ash, radius?", "arc", cutValues{"radius_mm": 2076.956522}},
		{"an arch 900 wide rising 70 cut from a board 200 wide, radius?", "arc", cutValues{"radius_mm": 1481.428571}},
		{"laminate ash, section 45 mm (w) x 30 mm (t), radius 1.5 m, length along the curve is 2100, plies?", "lamination", cutValues{"given thickness_mm": 30, "given width_mm": 45, "given length_mm": 2100}},
		{"planter, 6 sides, 10 degrees off vertical, cost 20 quid in 2019, compound angles?", "compound", cutValues{"saw_deg": 5.725105, "tilt_deg": 29.498704}},
	})
}

// Of several numbers words say which one counts.
func TestNumbersThatCount(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"I've got 20 hooks in the tin but only 5 go on the rail, it's 800 long, first and last 50 from the ends. Spacing?", "spacing", cutValues{"given quantity": 5, "pitch_mm": 175}},
		{"there's a bag of 30 pegs, I'll only use 8 of them on a 1250 rail, 75 in from each end, spacing", "spacing", cutValues{"given quantity": 8, "pitch_mm": 157.142857}},
		{"we'd 12 knobs but Gil dropped 2, so it's 10 knobs now along 1000, evenly spaced with 50 in from each end", "spacing", cutValues{"given quantity": 10, "pitch_mm": 100}},
		{"5 dowels equally spaced on 640, distance to the edge is 40 on both sides", "spacing", cutValues{"given end_mm": 40, "pitch_mm": 140}},
		{"seven spindles, 32 square, between newel posts 1240 apart, what gap", "spacing", cutValues{"gap_mm": 127}},
		{"bench slats: 45 mm slats, 5 of them, over 380 mm with the outer two flush. gap?", "spacing", cutValues{"gap_mm": 38.75}},
		{"how do I space five brackets along a 3 foot batten with 3 inches left at each end", "spacing", cutValues{"pitch_mm": 190.5}},
		{"pilot for number 8 in ash please, slat's 18 and the rail's 40", "screw", cutValues{"given thickness_mm": 18, "given into_mm": 40}},
		{"the bearer's 45 and the floor board on it is 20, larch, 5 mm screws, pilot?", "screw", cutValues{"given thickness_mm": 20, "given into_mm": 45}},
		{"The bay has three walls at 135 degrees, skirting 120 tall. what mitre", "mitre", cutValues{"given angle_deg": 135, "saw_deg": 22.5}},
		{"the sill is 140 deep and slopes 7 degrees, how much does it fall", "taper", cutValues{"given off_deg": 7, "offset_mm": 17.189838}},
		{"frame 820 x 1960, one diagonal's 2126 and t'other 2121", "square-check", cutValues{"given diagonal_mm": 2126, "given diagonal2_mm": 2121}},
		{"checking the bed base: 1350 by 1900, I get 2330 from one corner to the opposite and 2332 on the other. is that square", "square-check", cutValues{"given width_mm": 1350, "given height_mm": 1900, "given diagonal_mm": 2330, "given diagonal2_mm": 2332}},
		{"one way 978, other way 969, opening 655 wide 720 high, square?", "square-check", cutValues{"given diagonal_mm": 978, "given diagonal2_mm": 969}},
		{"curved rail, oak, 28 thick, 60 wide, inside radius 1400, 1.6 m along it. plies?", "lamination", cutValues{"given length_mm": 1600, "given radius_mm": 1400}},
		{"tray with 4 splayed sides at 70 degrees to the bottom, compound mitre settings", "compound", cutValues{"given sides": 4, "given slope_deg": 20, "saw_deg": 18.881721}},
		{"shelf 1010 between the cheeks, 9 jars 82 wide, same gap everywhere", "spacing", cutValues{"gap_mm": 27.2}},
		{"dia 10 holes at 128 c/c along a 900 rail, 66 from each end", "spacing", cutValues{"given pitch_mm": 128, "given end_mm": 66}},
		{"the corner's dead square, head casing is 90 wide and the legs are 60. mitre cuts?", "mitre", cutValues{"given angle_deg": 90, "mitre_deg": 56.30993}},
		{"trims 70 and 45 wide meeting at a perfectly square corner, what mitres", "mitre", cutValues{"mitre_deg": 57.26477, "mitre2_deg": 32.73523}},
		{"measured the corner twice, 92 then 91, and now it's 91.5. trims 60 wide. mitre?", "mitre", cutValues{"given angle_deg": 91.5, "mitre_deg": 45.75}},
		{"I got 88, Petra got 89 but with the good gauge it's definitely 88.5. trim 50 wide. mitre angle?", "mitre", cutValues{"given angle_deg": 88.5}},
		{"the head rakes at 87 degrees, the stile is 110 wide, what's the drop across it", "taper", cutValues{"given angle_deg": 87, "offset_mm": 5.764856}},
		{"hatch 600 wide and 800 high, corner to corner 1003 one way and 997 the other, is it square?", "square-check", cutValues{"given diagonal_mm": 1003, "given diagonal2_mm": 997, "diagonal_mm": 1000}},
		{"I measured from corner to corner both ways, 1255 and 1249, it's 750 wide and 1000 high and 30 thick. square?", "square-check", cutValues{"given diagonal_mm": 1255, "given diagonal2_mm": 1249}},
		{"opening is 1755 high and 690 wide, I get 1882 corner to corner and 1889 the other way. Square?", "square-check", cutValues{"given diagonal2_mm": 1889, "diagonal_mm": 1885.769074}},
		{"frame 690 x 1540 diags 1689 1686", "square-check", cutValues{"given diagonal2_mm": 1686}},
		{"how far should it be corner to corner on a frame 600 by 800 if it's square?", "square-check", cutValues{"diagonal_mm": 1000}},
		{"radius is 2 m and the rise is 150, ignore the 120 I said, how long is the chord", "arc", cutValues{"chord_mm": 1519.868415}},
	})
}

// A size of something else never stands in for one that is missing.
func TestSizesOfOtherThingsAsk(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"4 hooks on a strip 18 thick and 40 wide, evenly?", "spacing", nil},
		{"board 1200 long, end cut at 88 degrees, offset?", "taper", nil},
		{"I'm cutting the end of a 900 long rail at 86 degrees. how much offset?", "taper", nil},
		{"radius for an arch, it rises 60, board is 20 thick and 150 wide", "arc", nil},
		{"the trims are 58 wide and 12 thick, what mitre?", "mitre", nil},
		{"the frame is 640 wide and 45 thick, hinges 80 in from the ends, is it square?", "square-check", nil},
		{"gate's 900 wide, 3 hinges 100 from the ends, is it square?", "square-check", nil},
	})
}
