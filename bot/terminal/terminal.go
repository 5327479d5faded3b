// Package terminal asks and talks on standard input and output.
package terminal

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"

	"github.com/google/uuid"

	"fettle/bot"
	"fettle/bot/render"
	"fettle/commands"
)

// Desk is what the terminal needs of the desk.
type Desk interface {
	Reply(context.Context, bot.Message) (commands.Answer, error)
}

// Terminal is one person's terminal, or several people's, who take turns.
type Terminal struct {
	Desk    Desk
	Project string
	Who     string
	JSON    bool
	Now     func() time.Time
	Out     io.Writer
	Prompt  string // shown before each line where a person types
}

// maxLine is the longest line that is read, in bytes.
const maxLine = 1 << 20

// Ask puts one request and prints its answer.
func (t *Terminal) Ask(ctx context.Context, text string) error {
	return t.say(ctx, t.Who, text)
}

var speaker = regexp.MustCompile(`^([\p{L}\p{N}_.-]{1,40})>\s*(.*)$`)

// Chat reads a conversation, one message a line. A line "WHO> TEXT" speaks as WHO.
func (t *Terminal) Chat(ctx context.Context, in io.Reader) error {
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, 64*1024), maxLine)
	for t.prompted(lines) {
		who, text := t.Who, lines.Text()
		if m := speaker.FindStringSubmatch(text); m != nil {
			who, text = m[1], m[2]
		}
		if strings.TrimSpace(text) == "" && !t.JSON {
			continue
		}
		if err := t.say(ctx, who, text); err != nil {
			return err
		}
	}
	return lines.Err()
}

// prompted shows the prompt and reads the next line.
func (t *Terminal) prompted(lines *bufio.Scanner) bool {
	if t.Prompt != "" {
		fmt.Fprint(t.Out, t.Prompt)
	}
	return lines.Scan()
}

func (t *Terminal) say(ctx context.Context, who, text string) error {
	ans, err := t.Desk.Reply(ctx, bot.Message{
		Key: "terminal:" + uuid.NewString(), Place: "terminal:" + t.Project, Project: t.Project,
		WhoKey: strings.ToLower(who), Who: who, Text: text, At: t.Now(), Direct: true,
	})
	if err != nil {
		return err
	}
	shown := render.Plain(ans)
	if t.JSON {
		if shown, err = render.JSON(ans); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintln(t.Out, shown)
	return err
}
