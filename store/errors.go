package store

import (
	"errors"
	"fmt"
	"time"

	"github.com/mattn/go-sqlite3"
)

// Errors that a caller can tell apart with errors.Is. The text of each is a sentence for people;
// Sentence finds it again under whatever was wrapped around it.
var (
	// ErrDuplicate: the log has an entry with this key already.
	ErrDuplicate = errors.New("this message is in the log already")
	// ErrNotFound: there is no such thing, entry, project or question.
	ErrNotFound = errors.New("there is nothing of that name here")
	// ErrNoName: a name is empty or only blanks.
	ErrNoName = errors.New("this needs a name")
	// ErrChangedSince: an undo would trample on what somebody changed later. The error is a
	// *ChangedSince, which says what, who and when.
	ErrChangedSince = errors.New("this was changed again since, so it cannot simply be undone")

	// ErrLocked: another program holds the lock of this database.
	ErrLocked = errors.New("another fettle is running on this project file; stop it first, or use its file through it")
	// ErrBusy: another program was writing for longer than the store waits.
	ErrBusy = errors.New("the project file is busy, so that could not be saved; try again in a moment")
	// ErrFull: the disk is full.
	ErrFull = errors.New("the disk is full, so that could not be saved; make room and say it again")
	// ErrReadOnly: the file or its folder cannot be written.
	ErrReadOnly = errors.New("the project file or its folder cannot be written, so that could not be saved; check who may write there")
	// ErrDisk: the disk refused to read or write.
	ErrDisk = errors.New("the disk would not read or write, so that could not be saved; check the disk, and keep a copy of the newest backup")
	// ErrDamaged: the file does not hold together any more.
	ErrDamaged = errors.New("the project file is damaged; leave it where it is and go on with the newest backup")

	// ErrForeign: the file is no database of fettle's.
	ErrForeign = errors.New("this file was not made by fettle, so it is left alone; name another file")
	// ErrNewer: the file was written by a later fettle.
	ErrNewer = errors.New("this project file was written by a newer fettle; use that one, this one would spoil it")
	// ErrOwnFile: a backup was to be written over the database itself.
	ErrOwnFile = errors.New("a backup cannot take the place of the project file itself; name another file")
)

// sentences are the errors whose text may be shown to people as it is.
func sentences() []error {
	return []error{
		ErrDuplicate, ErrNotFound, ErrNoName, ErrChangedSince, ErrLocked, ErrBusy, ErrFull,
		ErrReadOnly, ErrDisk, ErrDamaged, ErrForeign, ErrNewer, ErrOwnFile,
	}
}

// Sentence returns what to tell people about err: the sentence of the store's own error inside
// it, or "" if there is none and err is for the log only.
func Sentence(err error) string {
	var changed *ChangedSince
	if errors.As(err, &changed) {
		return changed.Error()
	}
	for _, known := range sentences() {
		if errors.Is(err, known) {
			return known.Error()
		}
	}
	return ""
}

// ChangedSince is the ErrChangedSince of one undo: what stands in its way.
type ChangedSince struct {
	What, Name string    // the thing
	Entry      int64     // the later entry that changed it
	Who        string    // who wrote that entry
	At         time.Time // when, UTC
}

// Error says what was changed since, by whom and when.
func (e *ChangedSince) Error() string {
	return fmt.Sprintf("%s %s was changed again by %s on %s, so this cannot simply be undone",
		e.What, e.Name, e.Who, e.At.Format("2 Jan 2006 15:04 MST"))
}

// Is makes errors.Is(err, ErrChangedSince) true.
func (e *ChangedSince) Is(target error) bool { return target == ErrChangedSince }

// explain puts the error for people that belongs to the driver's error code in front of err.
func explain(err error) error {
	var driver sqlite3.Error
	if !errors.As(err, &driver) {
		return err
	}
	known := map[sqlite3.ErrNo]error{
		sqlite3.ErrBusy:     ErrBusy,
		sqlite3.ErrLocked:   ErrBusy,
		sqlite3.ErrFull:     ErrFull,
		sqlite3.ErrReadonly: ErrReadOnly,
		sqlite3.ErrCantOpen: ErrReadOnly,
		sqlite3.ErrPerm:     ErrReadOnly,
		sqlite3.ErrIoErr:    ErrDisk,
		sqlite3.ErrCorrupt:  ErrDamaged,
		sqlite3.ErrNotADB:   ErrForeign,
	}[driver.Code]
	if known == nil || errors.Is(err, known) {
		return err
	}
	return fmt.Errorf("%w (%w)", known, err)
}
