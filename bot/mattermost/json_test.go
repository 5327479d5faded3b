package mattermost_test

import (
	"bytes"
	"encoding/json"
	"io"
	"testing"
)

func jsonOf(t testing.TB, v any) io.Reader {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return bytes.NewReader(text)
}
