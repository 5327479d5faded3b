package room_test

import (
	"testing"
)

// TestTwoPhones has Petra and Gil come in, talk and be answered, each on a phone of their own.
func TestTwoPhones(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.open("/")
	petra.shot("join")
	petra.join()
	petra.shot("empty")
	gil := newPhone(h, b, "Gil", 360, 640)
	gil.join()
	petra.await("Gil to be here", "document.getElementById('here').textContent === 'Gil · Petra here'")
	petra.say("rough size for 600 by 45 finished")
	for _, p := range []*phone{petra, gil} {
		p.sees("rough size for 600 by 45 finished")
		p.sees("Rough 700 × 65 mm")
	}
	gil.say("kettle's on, see you at 6")
	petra.sees("kettle's on")
	gil.say("open time for polyurethane at 12 degrees")
	gil.sees("open 15 min")
	petra.shot("talk")
	gil.shot("talk-small")
	gil.say("rough size 74.2 x 3.8 x 1.6") // not plainly put as a question, so nobody interrupts
	gil.await("a way to ask it", "document.querySelector('.unheard button')")
	gil.shot("unheard")
	gil.do(click(".unheard button"))
	gil.await("choices", "document.querySelectorAll('.choices button').length > 1")
	petra.await("choices", "document.querySelectorAll('.choices button').length > 1")
	gil.shot("choices")
	gil.do(click(".choices button:first-of-type"))
	gil.sees("842 × 58")
	petra.sees("842 × 58")
	petra.await("the choices to go", "document.querySelectorAll('.choices button').length === 0")
	petra.dark(true)
	petra.shot("dark")
	if got := petra.count("article.answer"); got != 4 {
		t.Errorf("%d answers, want 4", got)
	}
	petra.fine()
	gil.fine()
}
