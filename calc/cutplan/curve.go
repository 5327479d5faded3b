package cutplan

// curve is a function on the numbers from 0 to a last one, drawn with straight lines between
// points: looked up far faster than computed.
type curve struct {
	scale  float64 // points to a unit
	points []float64
}

// pointsOfCurve is how many stretches a curve has.
const pointsOfCurve = 512

func newCurve(last float64, of func(float64) float64) curve {
	c := curve{scale: pointsOfCurve / last, points: make([]float64, pointsOfCurve+2)}
	for i := range c.points {
		c.points[i] = of(float64(i) / c.scale)
	}
	return c
}

func (c *curve) of(x float64) float64 {
	at := x * c.scale
	i := min(int(at), pointsOfCurve)
	return c.points[i] + (at-float64(i))*(c.points[i+1]-c.points[i])
}
