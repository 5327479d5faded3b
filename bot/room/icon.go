package room

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
)

// The icon is two boards that meet out of square, and the line along which they are to be cut,
// on a field of 48 × 48.
var (
	inkBlack  = color.RGBA{0x16, 0x15, 0x13, 0xff}
	paperTint = color.RGBA{0xfa, 0xf8, 0xf3, 0xff}
	accentRed = color.RGBA{0xd9, 0x5f, 0x3c, 0xff}
)

// iconAt draws the icon in a size in px.
func iconAt(size int) ([]byte, error) {
	picture := image.NewRGBA(image.Rect(0, 0, size, size))
	draw.Draw(picture, picture.Bounds(), image.NewUniform(inkBlack), image.Point{}, draw.Src)
	for y := range size {
		for x := range size {
			u, v := float64(x)*48/float64(size), float64(y)*48/float64(size)
			switch {
			case onLine(u, v):
				picture.Set(x, y, accentRed)
			case onBoards(u, v):
				picture.Set(x, y, paperTint)
			}
		}
	}
	var b bytes.Buffer
	err := png.Encode(&b, picture)
	return b.Bytes(), err
}

// onBoards says whether a place lies on the upright board or on the one that leans against it.
func onBoards(u, v float64) bool {
	upright := u >= 11 && u <= 19 && v >= 10 && v <= 38
	foot := v-30+(u-11)*0.08 >= 0 && v-38+(u-11)*0.08 <= 0 && u >= 11 && u <= 38
	return upright || foot
}

// onLine says whether a place lies on the cut, from the inner corner to the outer.
func onLine(u, v float64) bool {
	off := (v - 38.4) + (u - 10.6)
	return off > -1.3 && off < 1.3 && u >= 9 && u <= 21
}
