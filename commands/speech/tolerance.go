package speech

import "fettle/calc/measure"

// tolerances marks the numbers that say how exactly another one is known or wanted: ± 2, good to a
// sixteenth, to the nearest half.
func (s *Sentence) tolerances() {
	for i := range s.Items {
		q := s.quantity(i)
		if q == nil || q.High != nil || q.Kind != measure.KindNumber && q.Kind != measure.KindLength && q.Kind != measure.KindAngle && q.Kind != measure.KindTemperature && q.Kind != measure.KindPercent {
			continue
		}
		if s.word(i-1) == "±" || s.word(i-1) == "-" && s.word(i-2) == "/" && s.word(i-3) == "+" || s.exactTo(i) || s.word(i-1) == "within" && q.Fraction {
			q.Kind = KindTolerance
		}
	}
}

// exactness are words for how well a size is known, beforeNumber what may stand between them and a number.
var (
	exactness    = wordSet("nearest accurate exact precise")
	beforeNumber = wordSet("the a an to within only about or so say")
)

func (s *Sentence) exactTo(i int) bool {
	for j := i - 1; j >= 0 && j >= i-5; j-- {
		w := s.word(j)
		if _, ok := exactness[w]; ok {
			return true
		}
		if w == "good" && s.word(j+1) == "to" || w == "take" && s.word(j-2) == "give" {
			return true
		}
		if _, ok := beforeNumber[w]; !ok {
			return false
		}
	}
	return false
}
