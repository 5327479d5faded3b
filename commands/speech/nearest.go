package speech

import (
	"math"
)

// fillSoleKinds meets needs by the unit said, where the form has one need of that kind only.
func (r *Reading) fillSoleKinds() {
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		var fit []*Need
		for k := range r.Form.Needs {
			if n := &r.Form.Needs[k]; r.open(n) && n.exactly(r.Items[i].Q) {
				fit = append(fit, n)
			}
		}
		if len(fit) == 1 {
			r.Set(fit[0].Name, i)
			r.spoke = true
		}
	}
}

// clearlyNearer is how much nearer one value must be than the next for a number to be taken
// as a change of it.
const clearlyNearer = 1.5

// countBias makes "make it 5" mean how many rather than a size that lies as near.
const countBias = 0.6

// fillNearest gives each number that nothing spoke for to the need whose last value it comes
// nearest to, measured as a ratio. Where two come about as near, it stays unread and the
// message is not taken for a change.
func (r *Reading) fillNearest(last *Request) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.High != nil || len(r.Items[i].Q.Per) > 0 {
			continue
		}
		var near, next *Need
		best, second := math.Inf(1), math.Inf(1)
		for k := range r.Form.Needs {
			n := &r.Form.Needs[k]
			if !r.open(n) || !n.accepts(r.Items[i].Q) {
				continue
			}
			d := r.distance(n, last, *r.Items[i].Q)
			if d < best {
				near, next, best, second = n, near, d, best
			} else if d < second {
				next, second = n, d
			}
		}
		switch {
		case near == nil:
		case second > best*clearlyNearer || math.IsInf(second, 1) || near.Leads:
			r.Set(near.Name, i)
		default:
			r.either(i, near, next)
		}
	}
}

// either notes that a number may be a change of one need or of another; the person is asked.
func (r *Reading) either(item int, a, b *Need) {
	r.Claim(item)
	r.told = true
	for _, n := range []*Need{a, b} {
		r.doubt = append(r.doubt, Option{Label: n.Label, Request: Request{Topic: r.Form.Name,
			Slots: map[string]Slot{n.Name: r.slot(n, *r.Items[item].Q)}}})
	}
}

// inDoubt makes the question of what a number changes, over the request as it stands.
func (r *Reading) inDoubt() *Question {
	if len(r.doubt) == 0 {
		return nil
	}
	options := make([]Option, len(r.doubt))
	said := ""
	for i, o := range r.doubt {
		c := r.Request.clone()
		for name, s := range o.Request.Slots {
			c.Slots[name] = s
			said = s.text()
		}
		options[i] = Option{Label: o.Label, Request: c}
	}
	return Choice("What is "+said+" now?", options...)
}

// distance is the ratio between a number and the last value of a need, at least 1; infinite
// when the need cannot take it. A need that was asked for comes first.
func (r *Reading) distance(n *Need, last *Request, q Quantity) float64 {
	if last.Open != nil && last.Open.Need == n.Name && len(last.Open.Options) == 0 {
		if n.plausible(r.slot(n, q).Num) || q.Bare() {
			return 0.1
		}
	}
	bias := 1.0
	if n.Kind == KindCount && r.Says("make|do it|that #") {
		bias = countBias
	}
	was, ok := last.Float(n.Name)
	now := ratFloat(r.slot(n, q).Num)
	if !ok || was <= 0 || now <= 0 || !n.plausible(r.slot(n, q).Num) {
		return math.Inf(1)
	}
	return math.Max(was/now, now/was) * bias
}
