package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/evidence"
	"fettle/calc/measure"
	"fettle/calc/piece"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

// mostCautions bounds the cautions of one answer: more are not read.
const mostCautions = 2

// caution adds a caution, the weightiest first: the same one counts once, and those beyond
// mostCautions are left out.
func (a *Answer) caution(text string) {
	if len(a.Cautions) < mostCautions && !slices.Contains(a.Cautions, text) {
		a.Cautions = append(a.Cautions, text)
	}
}

// What something is for, where people can come to harm when it fails.
const (
	forPeople = "people"
	forLoads  = "load-bearing"
	forSea    = "sea-going"
)

var usePatterns = []struct{ use, pattern string }{
	{forSea, "=boat|boats|hull|yacht|companionway|washboard|washboards|porthole|portholes|seagoing|watertight"},
	{forSea, "sea going"},
	{forSea, "deck|cockpit|cabin hatch|window|door|locker"},
	{forPeople, "=person|persons|people|adult|adults|man|men|woman|women|child|children|kid|kids|someone|somebody|anyone|anybody|guest|guests"},
	{forPeople, "=i|me|we|us|you|one|he|she|they|petra|gil .. =stand|standing|stands|sit|sits|sitting|step|kneel|sleep|sleeps"},
	{forPeople, "=sit|sits|sitting on|upon"},
	{forPeople, "=bed|bunk|bunks|ladder|step|steps|stair|stairs|tread|treads|handrail|grab|seat|seats"},
	{forLoads, "=structural|joist|joists|rafter|rafters|purlin|lintel|floorboards"},
	{forLoads, "load bearing|carrying"},
	{forLoads, "=roof|floor|ceiling beam|beams|timber|timbers"},
	{forLoads, "overhead locker|lockers"},
}

var useNeed = speech.Need{Name: "use", Kind: speech.KindWord, Own: true}

// readUse notes what something is for. It is no more than a remark beside the request.
func readUse(r *speech.Reading) {
	for _, u := range usePatterns {
		if r.Says(u.pattern) {
			r.Request.Slots[useNeed.Name] = speech.Slot{Word: u.use}
			return
		}
	}
}

// useCaution sends on to those who answer for what people are harmed by when it fails: the
// scope of ISO 12216 (seen) for closures of craft, of EN 204 and EN 301 (seen) for glued joints.
func (a *Ask) useCaution(ans *Answer) {
	switch a.Word(useNeed.Name) {
	case forPeople:
		ans.caution("What people stand, sit or sleep on goes by local codes and someone licensed to build it; this is no proof of strength.")
	case forLoads:
		ans.caution("What carries a load goes by local codes and someone licensed to design it; this is no proof of strength.")
	case forSea:
		ans.caution("What keeps the sea out goes by the standard for craft (ISO 12216), the maker or a surveyor, not by a chat.")
	}
}

// Stock that a planer can catch: common practice, no source.
var (
	thinStock   = 8 * measure.Millimetre
	narrowStock = 25 * measure.Millimetre
)

// machineCautions warns of what goes through the machines: short stock (HSE on the surface
// planer: hand-feeding under about 300 mm, seen), thin or narrow stock (practice), dust.
func (a *Ask) machineCautions(ans *Answer, raw, finished piece.Size) {
	minimum, _ := a.Settings.length("machine_minimum")
	if raw.Length > 0 && raw.Length < minimum {
		ans.caution(shortStock(a.Out(), minimum))
	}
	if finished.Thickness > 0 && finished.Thickness < thinStock || finished.Width > 0 && finished.Width < narrowStock {
		ans.caution("Thin or narrow stock can dip or shatter in planer and thicknesser: machine it wider and rip it last, or carry it on a board.")
	}
	a.useCaution(ans)
	if s, ok := wood.Find(a.Word("species")); ok {
		if text, harms := s.Dust(); harms {
			ans.caution(fmt.Sprintf("Dust of %s %s: extract it at the source and wear a fitted mask.", s.Name, text))
		}
	}
}

func shortStock(out measure.System, minimum measure.Length) string {
	return fmt.Sprintf("Keep what goes through planer and thicknesser over %s; use push blocks.", out.Text(minimum, measure.Nearest))
}

// knownBy says in a few words how a figure is known: of several sources the one that names
// the property, else the first, without where a copy of it was read.
func knownBy(f evidence.Figure, property ...string) string {
	sources := strings.Split(f.Source, "; ")
	source := sources[0]
	for _, s := range sources {
		if slices.ContainsFunc(property, func(p string) bool { return strings.Contains(s, p) }) {
			source = s
			break
		}
	}
	if i := strings.LastIndex(source, " ("); i > 0 && strings.Contains(source[i:], "/") {
		source = source[:i]
	}
	switch f.Status {
	case evidence.Seen:
		return source + ", read there"
	case evidence.Derived:
		return "worked out from " + source
	case evidence.Memory:
		return source + ", from memory"
	case evidence.Stated:
		return "as you said"
	}
	return "common practice, no source"
}
