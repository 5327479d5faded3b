package room_test

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/gorilla/websocket"
)

const (
	mostKiB      = 150                    // of a page with all that it brings
	mostToAnswer = 300 * time.Millisecond // from sending a question to its answer on the other phone, on loopback
)

// BenchmarkFirstAnswer measures from sending a question to its answer on another phone's
// connection, and what a page weighs with all its parts, without compression.
func BenchmarkFirstAnswer(b *testing.B) {
	h := build(b)
	jar, err := cookiejar.New(nil)
	if err != nil {
		b.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	post := func(path string, form url.Values) {
		reply, err := client.PostForm(h.wifi.url()+path, form)
		if err != nil || reply.StatusCode != http.StatusOK {
			b.Fatalf("%s: %v, %v", path, reply, err)
		}
		reply.Body.Close()
	}
	post("/join", url.Values{"name": {"Petra"}, "code": {theCode}})
	weight := weigh(b, client, h.wifi.url())
	conn, _, err := (&websocket.Dialer{Jar: jar}).Dial("ws"+strings.TrimPrefix(h.wifi.url(), "http")+"/room/1/live?after=0", nil)
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close()
	var took []time.Duration
	for b.Loop() {
		key := uuid.NewString()
		start := time.Now()
		post("/room/1/say", url.Values{"key": {key}, "text": {"rough size for 600 by 45 finished"}, "ask": {"1"}})
		awaitAnswer(b, conn, key)
		took = append(took, time.Since(start))
	}
	sort.Slice(took, func(i, j int) bool { return took[i] < took[j] })
	slowest := took[len(took)*99/100]
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(slowest.Microseconds())/1000, "p99-ms")
	b.ReportMetric(float64(weight)/1024, "page-KiB")
	if weight > mostKiB<<10 || slowest > mostToAnswer {
		b.Errorf("over budget: %d bytes a page (of %d KiB), %v to an answer (of %v)", weight, mostKiB, slowest, mostToAnswer)
	}
}

// awaitAnswer reads the connection until the answer to a message has come.
func awaitAnswer(b *testing.B, conn *websocket.Conn, key string) {
	b.Helper()
	asked := int64(0)
	for {
		_, text, err := conn.ReadMessage()
		if err != nil {
			b.Fatal(err)
		}
		var n struct {
			Items []struct {
				Slot int64
				HTML string
			}
		}
		if err := json.Unmarshal(text, &n); err != nil {
			b.Fatal(err)
		}
		for _, it := range n.Items {
			if strings.Contains(it.HTML, key) {
				asked = it.Slot
			}
			if asked != 0 && it.Slot > asked && strings.Contains(it.HTML, "headline") {
				return
			}
		}
	}
}

var parts = regexp.MustCompile(`(?:src|href)="(/(?:static|sw|manifest)[^"]*)"|from "\./([a-z]+\.js)"`)

// weigh adds up a page and everything that it names, as often as it takes.
func weigh(b *testing.B, client *http.Client, at string) (sum int) {
	b.Helper()
	seen, todo := map[string]bool{}, []string{"/room/1"}
	for len(todo) > 0 {
		path := todo[0]
		if todo = todo[1:]; seen[path] {
			continue
		}
		seen[path] = true
		reply, err := client.Get(at + path)
		if err != nil {
			b.Fatal(err)
		}
		text, err := io.ReadAll(reply.Body)
		reply.Body.Close()
		if err != nil || reply.StatusCode != http.StatusOK {
			b.Fatalf("%s: %d, %v", path, reply.StatusCode, err)
		}
		sum += len(text)
		for _, m := range parts.FindAllStringSubmatch(string(text), -1) {
			if m[1] != "" {
				todo = append(todo, m[1])
			} else {
				todo = append(todo, "/static/"+m[2])
			}
		}
	}
	if len(seen) < 8 {
		b.Fatalf("only %d parts of the page were found", len(seen))
	}
	return sum
}
