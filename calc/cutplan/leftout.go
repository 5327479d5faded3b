package cutplan

import "fmt"

// leaveOutUnfit notes the parts that are in no lot, as no board at all has a place for them.
func (plan *Plan) leaveOutUnfit(job *Job, lots []*lot) {
	fits := make([]bool, len(job.Parts))
	for _, lt := range lots {
		for _, k := range lt.kinds {
			for _, m := range k.members {
				fits[m.part] = true
			}
		}
	}
	for i := range job.Parts {
		if p := &job.Parts[i]; !fits[i] {
			plan.leaveOut(job, i, p.Quantity, job.reason(p))
		}
	}
}

// reason says why a part has no place on any board.
func (job *Job) reason(p *Part) string {
	var thick, species, long, wide bool
	for i := range job.Boards {
		b := &job.Boards[i]
		if b.Thickness != p.Thickness {
			continue
		}
		thick = true
		if !mates(p, b) {
			continue
		}
		species = true
		for _, turned := range []bool{false, true} {
			l, w := p.Length, p.Width
			if turned {
				l, w = w, l
			}
			if turned && !(p.Free && b.Sheet) {
				continue
			}
			long = long || l <= b.Length-2*job.Trim
			wide = wide || l <= b.Length-2*job.Trim && w <= b.Width
		}
	}
	switch {
	case !thick:
		return fmt.Sprintf("No board is %s mm thick.", mm(p.Thickness))
	case !species:
		return fmt.Sprintf("No board of that thickness is %s.", p.Species)
	case !long && job.Trim > 0:
		return fmt.Sprintf("No board is long enough for %s mm when its ends are trimmed.", mm(p.Length))
	case !long:
		return fmt.Sprintf("No board is long enough for %s mm.", mm(p.Length))
	case !wide:
		return fmt.Sprintf("No board that is long enough is %s mm wide.", mm(p.Width))
	}
	return "The faults leave no place of its size on any board."
}
