package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"fettle/commands"
	"fettle/store"
)

// React is told that somebody put a sign under a post. Where the answer that stands there says
// what the sign means, it is heard as that person saying so; any other sign is left alone, and
// so is one under a question that is closed.
func (d *Desk) React(ctx context.Context, r Reaction) error {
	text, thread := "", ""
	err := d.store.Read(ctx, func(tx *store.Tx) error {
		answer, known, err := tx.AnswerSentAs(r.Place, r.Post)
		if err != nil || !known {
			return err
		}
		thread = answer.Thread
		text, err = signMeans(tx, answer, r)
		return err
	})
	if err != nil || text == "" {
		return err
	}
	return d.Hear(ctx, Message{Key: r.Key, Place: r.Place, Project: r.Project, Thread: thread, WhoKey: r.WhoKey, Who: r.Who,
		Text: text, At: r.At, Mentioned: true})
}

// signMeans gives what a sign under an answer says, or "".
func signMeans(tx *store.Tx, answer store.Entry, r Reaction) (string, error) {
	var said commands.Answer
	if answer.Answer == nil {
		return "", nil
	}
	if err := json.Unmarshal(answer.Answer, &said); err != nil {
		return "", fmt.Errorf("read answer %d: %w", answer.ID, err)
	}
	if said.Question == "" {
		return said.Signs[r.Sign], nil
	}
	open, err := tx.OpenQuestions(answer.Place, r.At.Add(-commands.QuestionLife))
	if err != nil || !slices.ContainsFunc(open, func(e store.Entry) bool { return e.ID == answer.About }) {
		return "", err
	}
	return said.Signs[r.Sign], nil
}
