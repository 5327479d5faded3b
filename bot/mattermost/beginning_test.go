package mattermost_test

import (
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/mattermost"
)

var _ mattermost.Desk = (*bot.Desk)(nil)

func TestTheFirstRunBeginsNowWhereItHasLongBeen(t *testing.T) {
	f, d := newFake(t), newDesk()
	old, fresh := f.channel("old"), f.channel("fresh")
	f.say(old, "@fettle long ago")
	f.age(old, time.Hour)
	f.say(fresh, "@fettle 0") // invited a moment ago, before the program was started
	onFake(t, f, d, brisk)
	expectOnce(t, f, d, fresh, numbered(1))
	f.say(old, "@fettle 0")
	expectOnce(t, f, d, old, numbered(1))
}

func TestALaterRunReadsWhatItHasNotSeen(t *testing.T) {
	f, d := newFake(t), newDesk()
	known, quiet := f.channel("known"), f.channel("quiet")
	f.say(quiet, "@fettle long ago")
	f.age(quiet, time.Hour)
	stop := onFake(t, f, d, brisk)
	f.say(known, "@fettle 0")
	expectOnce(t, f, d, known, numbered(1))
	stop()
	f.say(quiet, "@fettle 0") // a channel that the desk has never heard of
	f.say(known, "@fettle 1")
	onFake(t, f, d, brisk)
	expectOnce(t, f, d, quiet, numbered(1))
	expectOnce(t, f, d, known, numbered(2))
}

// What was said between a removal and a new invitation was not said to the bot, apart from
// the mention that brought it back.
func TestAReturnSkipsTheAbsenceButNotTheCall(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	stop := onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	stop()
	aside := f.say(channel, "@fettle is gone, good")
	f.say(channel, "@fettle 1")
	f.join(channel)
	f.edit(aside, "@fettle is gone, a pity")
	f.say(channel, "@fettle 2")
	onFake(t, f, d, brisk)
	expectOnce(t, f, d, channel, numbered(3))
}
