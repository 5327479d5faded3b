package mattermost

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
)

// discreet is a log handler that never lets the token through, whatever error or panic it
// came in.
type discreet struct {
	next  slog.Handler
	token string
}

func hide(text, token string) string {
	return strings.ReplaceAll(text, token, "[token]")
}

func (d discreet) Enabled(ctx context.Context, level slog.Level) bool {
	return d.next.Enabled(ctx, level)
}

func (d discreet) Handle(ctx context.Context, r slog.Record) error {
	clean := slog.NewRecord(r.Time, r.Level, hide(r.Message, d.token), r.PC)
	r.Attrs(func(a slog.Attr) bool {
		clean.AddAttrs(d.clean(a))
		return true
	})
	return d.next.Handle(ctx, clean)
}

func (d discreet) clean(a slog.Attr) slog.Attr {
	value := a.Value.Resolve()
	switch value.Kind() {
	case slog.KindString, slog.KindAny:
		return slog.String(a.Key, hide(fmt.Sprint(value.Any()), d.token))
	default:
		return slog.Attr{Key: a.Key, Value: value}
	}
}

func (d discreet) WithAttrs(attrs []slog.Attr) slog.Handler {
	clean := make([]slog.Attr, len(attrs))
	for i, a := range attrs {
		clean[i] = d.clean(a)
	}
	return discreet{d.next.WithAttrs(clean), d.token}
}

func (d discreet) WithGroup(name string) slog.Handler {
	return discreet{d.next.WithGroup(name), d.token}
}
