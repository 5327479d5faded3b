package mattermost_test

import (
	"strings"
	"testing"

	"fettle/bot/mattermost"

	"pgregory.net/rapid"
)

// How the real server takes these is tested in server_test.go; here is what stays as it is.
func TestHarmlessLeavesTheRestAlone(t *testing.T) {
	for _, text := range []string{
		"Rough 680 × 60 mm", "write to petra@hut.example", "5 @ 176 mm", "`@all` is code",
		"```\n@all\n```", "at the end @", "a @\n- b",
	} {
		if got := mattermost.Harmless(text); got != text {
			t.Errorf("Harmless(%q) = %q, want no change", text, got)
		}
	}
	for _, text := range []string{"@all", `\@all`, "**@all**", "@CHANNEL", "@petra", "＠all", "&#64;all", "x.@all", "`a` @all", "\f@\r0"} {
		got := mattermost.Harmless(text)
		if got == text || strings.ReplaceAll(got, "\u200b", "") != text {
			t.Errorf("Harmless(%q) = %q, want it with a space of no width", text, got)
		}
		if again := mattermost.Harmless(got); again != got {
			t.Errorf("Harmless(%q) = %q the second time", got, again)
		}
	}
}

func checkHarmless(t interface{ Errorf(string, ...any) }, text string) {
	got := mattermost.Harmless(text)
	if mattermost.CallsSomebody(got) {
		t.Errorf("Harmless(%q) = %q still calls somebody", text, got)
	}
	if strings.ReplaceAll(got, "\u200b", "") != strings.ReplaceAll(text, "\u200b", "") {
		t.Errorf("Harmless(%q) = %q has changed more than it should", text, got)
	}
}

func TestHarmlessCallsNobody(t *testing.T) {
	pieces := []string{"@", "＠", "all", "gil", "@petra", "`", "``", "```", "\n", "~~~", "\\", "&#64;", "&commat;", "&#97;", "*", "_", ".", ":", " ", "    ", "> ", "[", "](x)", "|", "<", ">", "é", "#"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 30).Draw(t, "pieces"), "")
		checkHarmless(t, text)
	})
}

func FuzzHarmless(f *testing.F) {
	for _, text := range []string{"@all", "\\@all", "**@all**", "`@all", "&#0064;all", "@&#97;ll"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { checkHarmless(t, text) })
}
