package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/gofrs/flock"
)

const (
	lockPatience = 2 * time.Second
	lockRetry    = 10 * time.Millisecond
)

// Lock takes the lock beside the database, which says that this program answers for it, until
// release is called or the program ends. A second holder gets ErrLocked at once. Reading and
// writing need no lock: it is for the one program that listens and answers.
func (s *Store) Lock() (release func(), err error) {
	lock := flock.New(s.path+".lock", flock.SetPermissions(0o600))
	held, err := lock.TryLock()
	if err != nil {
		return nil, fmt.Errorf("lock store: %w", unwritable(err))
	}
	if !held {
		return nil, fmt.Errorf("lock store: %w", ErrLocked)
	}
	return func() { _ = lock.Close() }, nil
}

// waitForLock takes the same lock for a moment, and waits a little for it.
func waitForLock(ctx context.Context, path string) (release func(), err error) {
	waiting, cancel := context.WithTimeout(ctx, lockPatience)
	defer cancel()
	lock := flock.New(path+".lock", flock.SetPermissions(0o600))
	_, err = lock.TryLockContext(waiting, lockRetry)
	if err != nil && ctx.Err() == nil && errors.Is(err, context.DeadlineExceeded) {
		return nil, ErrLocked
	}
	if err != nil {
		return nil, fmt.Errorf("take the lock: %w", unwritable(err))
	}
	return func() { _ = lock.Close() }, nil
}
