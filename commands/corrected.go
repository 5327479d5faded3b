package commands

import (
	"fmt"
	"strconv"

	"fettle/commands/speech"
	"fettle/store"
)

// correctsSlot holds, in a request with a question, which message it corrects: the answer to the
// question does so too.
const correctsSlot = "corrects"

// settleCorrection finds out which message this one corrects, if any. A request that does something
// else than the last one, a change after parts were added, is one of its own and takes nothing back.
func (h *Heard) settleCorrection(u *speech.Understanding, ctx speech.Context, last *store.Entry) error {
	asked, waits := u.Request.Slots[correctsSlot]
	delete(u.Request.Slots, correctsSlot)
	switch {
	case waits && (u.Manner == speech.Reply || u.Manner == speech.Correction):
		id, err := strconv.ParseInt(asked.Word, 10, 64)
		if err != nil {
			return fmt.Errorf("read what a question corrects: %w", err)
		}
		e, known, err := h.turn.Tx.EntryByID(id)
		if known {
			h.corrects = &e
		}
		return err
	case u.Manner != speech.Correction:
	case ctx.Last != nil && adds(*ctx.Last) && !adds(u.Request):
		onItsOwn(&u.Request, *ctx.Last)
		u.Manner = speech.FollowUp
	default:
		h.corrects = last
	}
	return nil
}

func adds(r speech.Request) bool {
	a := r.Word("action")
	return a == "" || a == "add"
}

// onItsOwn leaves to a request what was said for itself, and nothing of the one that it was laid over.
func onItsOwn(r *speech.Request, last speech.Request) {
	for name, s := range r.Slots {
		if was := last.Slots[name]; s.Num != nil && s.Num == was.Num || s.Word != "" && s.Word == was.Word {
			delete(r.Slots, name)
		}
	}
	r.Items = nil
}

// correcting notes in a request with a question, and in all answers to it, what it corrects.
func correcting(r *speech.Request, entry int64) {
	slot := speech.Slot{Word: strconv.FormatInt(entry, 10)}
	mark := func(r *speech.Request) {
		if r.Slots == nil {
			r.Slots = map[string]speech.Slot{}
		}
		r.Slots[correctsSlot] = slot
	}
	mark(r)
	for i := range r.Open.Options {
		mark(&r.Open.Options[i].Request)
	}
}
