package speech

// amended drops the numbers that the speaker takes back in the same breath: "three, no, four
// boards", "240 long, sorry, 260 long", "not 600 but 610", "604, not 640".
func (s *Sentence) amended() {
	for i := 0; i < len(s.Items); i++ {
		if s.Items[i].Q == nil {
			continue
		}
		if to := s.takenBack(i); to > 0 && alike(s.Items[i].Q, s.Items[to].Q) {
			s.Items = append(s.Items[:i], s.Items[to:]...)
			i--
			continue
		}
		if wrong := s.contrasted(i); wrong > 0 && alike(s.Items[i].Q, s.Items[wrong].Q) {
			s.Items = append(s.Items[:wrong-1], s.Items[wrong+1:]...)
			continue
		}
		if to := i + 2; s.word(i-1) == "not" && (s.word(i+1) == "but" || s.word(i+1) == ",") && s.quantity(to) != nil && alike(s.Items[i].Q, s.Items[to].Q) {
			s.Items = append(s.Items[:i-1], s.Items[to:]...)
			i -= 2
		}
	}
}

// contrasted finds the number that the one at i is meant instead of, "604 not 640", or gives 0.
func (s *Sentence) contrasted(i int) int {
	j := i + 1
	if isRoleWord(s.word(j)) {
		j++
	}
	if s.word(j) == "," {
		j++
	}
	if s.word(j) == "and" {
		j++
	}
	if s.word(j) == "not" && s.quantity(j+1) != nil && s.word(j+2) != "but" {
		return j + 1
	}
	return 0
}

// takenBack finds the number that stands for the one at i instead, or gives 0.
func (s *Sentence) takenBack(i int) int {
	j := i + 1
	if isRoleWord(s.word(j)) {
		j++
	}
	marked := false
	for ; j < len(s.Items) && j < i+8; j++ {
		if s.Items[j].Q != nil {
			if marked {
				return j
			}
			return 0
		}
		switch w := s.word(j); {
		case breathMark(w):
		case w == "i" && s.word(j+1) == "mean", w == "make" && (s.word(j+1) == "that" || s.word(j+1) == "it"), w == "or" && s.word(j+1) == "rather":
			marked = true
			j++
		case isTakeBack(w):
			marked = true
		default:
			return 0
		}
	}
	return 0
}

func breathMark(w string) bool {
	switch w {
	case ",", "-", ".", "…", "er", "erm", "um", "uh", "hang", "on", "hm", "hmm", "it's", "its":
		return true
	}
	return false
}

var takeBacks = wordSet("no naw nah nope sorry wait oops whoops rather correction actually")

func isTakeBack(w string) bool { _, ok := takeBacks[w]; return ok }

// alike says whether one number can stand for another.
func alike(a, b *Quantity) bool {
	if a.Value == nil || b.Value == nil || a.High != nil || b.High != nil {
		return false
	}
	return a.Kind == b.Kind || a.Bare() || b.Bare()
}
