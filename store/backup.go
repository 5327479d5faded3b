package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// Backup writes the database as it is at this moment into one file, while others go on reading and
// writing. The copy is checked and on the disk before it takes its name, and a file that is there
// is replaced at once or not at all. A folder that is not there is made. ErrOwnFile if file is the
// database itself.
//
// If the program is killed meanwhile an unfinished copy named .FILE.*.part may be left behind.
func (s *Store) Backup(ctx context.Context, file string) error {
	file, err := filepath.Abs(file)
	if err == nil {
		err = s.notOurs(file)
	}
	if err == nil {
		err = copyTo(ctx, s.path, file)
	}
	if err != nil {
		return fmt.Errorf("back up to %s: %w", file, err)
	}
	return nil
}

// notOurs refuses the database's own path, by whatever name, and those of the files beside it.
func (s *Store) notOurs(file string) error {
	for _, suffix := range []string{"", "-wal", "-shm", "-journal", ".lock"} {
		if file == s.path+suffix {
			return ErrOwnFile
		}
	}
	ours, err := os.Stat(s.path)
	if err != nil {
		return err
	}
	if theirs, err := os.Stat(file); err == nil && os.SameFile(ours, theirs) {
		return ErrOwnFile
	}
	return nil
}

// copyTo copies the database at path, in one consistent state, into file.
func copyTo(ctx context.Context, path, file string) (err error) {
	folder := filepath.Dir(file)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return unwritable(err)
	}
	// VACUUM INTO takes an empty file for its own, and this one is for the owner's eyes only.
	part, err := os.CreateTemp(folder, "."+filepath.Base(file)+".*.part")
	if err != nil {
		return unwritable(err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, part.Close(), os.Remove(part.Name()))
		}
	}()
	if err := vacuumInto(ctx, path, part.Name()); err != nil {
		return err
	}
	if err := checkCopy(ctx, part.Name()); err != nil {
		return err
	}
	// First the content must be on the disk, then the name: after a power cut in between, the
	// name would otherwise stand for a file with holes.
	if err := part.Sync(); err != nil {
		return err
	}
	if err := os.Rename(part.Name(), file); err != nil {
		return err
	}
	return errors.Join(part.Close(), syncFolder(folder))
}

func vacuumInto(ctx context.Context, path, file string) error {
	db, err := connect(path, visitorSettings, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := db.ExecContext(ctx, "VACUUM INTO ?", file); err != nil {
		return fmt.Errorf("copy: %w", explain(err))
	}
	return nil
}

// checkCopy opens a copy as a restore would and reads all of it.
func checkCopy(ctx context.Context, file string) error {
	if _, err := look(ctx, file); err != nil {
		return fmt.Errorf("check the copy: %w", err)
	}
	db, err := connect(file, visitorSettings, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	if err := examine(ctx, db, "PRAGMA integrity_check"); err != nil {
		return fmt.Errorf("check the copy: %w", err)
	}
	return nil
}

// syncFolder puts a folder's list of names on the disk.
func syncFolder(folder string) error {
	f, err := os.Open(folder)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
