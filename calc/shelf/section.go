package shelf

import "math"

// Lip is a strip glued along the front edge, flush with the shelf on one face and standing
// proud of it on the other, in the same timber. The zero Lip is none.
type Lip struct {
	HeightMM    float64 // upright
	ThicknessMM float64 // front to back
}

// rectangle is a part of the section: its size and the place of its middle, x from the back
// edge to the front, y downwards from the face with which the lip is flush.
type rectangle struct{ wide, high, x, y float64 }

// inertia gives the second moment of area that an upright load meets, in mm⁴. A plank alone
// has b h³/12 (structural formula sheets, seen). A plank with a lip is the two rectangles about
// their common middle (parallel axes), less what bending out of the upright costs a section
// that is not symmetrical: Ix − Ixy²/Iy (statics). Twisting is left out.
func (s Shelf) inertia() float64 {
	parts := []rectangle{{s.DepthMM, s.ThicknessMM, s.DepthMM / 2, s.ThicknessMM / 2}}
	if s.Lip.HeightMM > 0 {
		parts = append(parts, rectangle{s.Lip.ThicknessMM, s.Lip.HeightMM, s.DepthMM + s.Lip.ThicknessMM/2, s.Lip.HeightMM / 2})
	}
	var area, sx, sy float64
	for _, p := range parts {
		a := p.wide * p.high
		area, sx, sy = area+a, sx+a*p.x, sy+a*p.y
	}
	var ix, iy, ixy float64
	for _, p := range parts {
		a, dx, dy := p.wide*p.high, p.x-sx/area, p.y-sy/area
		ix += p.wide*math.Pow(p.high, 3)/12 + a*dy*dy
		iy += p.high*math.Pow(p.wide, 3)/12 + a*dx*dx
		ixy += a * dx * dy
	}
	return ix - ixy*ixy/iy
}
