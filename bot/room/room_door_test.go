package room_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// visitor is a browser without a screen.
type visitor struct {
	testing.TB
	*http.Client
	url string
}

func visit(h *hut) *visitor {
	h.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		h.Fatal(err)
	}
	return &visitor{TB: h.TB, url: h.wifi.url(), Client: &http.Client{Jar: jar, Timeout: patience,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
}

// send makes a request as one of our own pages would, and changes it as the test wants.
func (v *visitor) send(method, path string, form url.Values, change ...func(*http.Request)) (*http.Response, string) {
	v.Helper()
	req, err := http.NewRequestWithContext(v.Context(), method, v.url+path, strings.NewReader(form.Encode()))
	if err != nil {
		v.Fatal(err)
	}
	if method == http.MethodPost {
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		req.Header.Set("Origin", v.url)
	}
	for _, c := range change {
		c(req)
	}
	reply, err := v.Do(req)
	if err != nil {
		v.Fatal(err)
	}
	defer reply.Body.Close()
	body, err := io.ReadAll(reply.Body)
	if err != nil {
		v.Fatal(err)
	}
	return reply, string(body)
}

func (v *visitor) join(name, code string) *http.Response {
	v.Helper()
	reply, _ := v.send(http.MethodPost, "/join", url.Values{"name": {name}, "code": {code}})
	return reply
}

const someKey = "0123456789abcdef0123456789abcdef"

func (v *visitor) say(text, key string, change ...func(*http.Request)) (*http.Response, string) {
	v.Helper()
	return v.send(http.MethodPost, "/room/1/say", url.Values{"text": {text}, "key": {key}}, change...)
}

func wants(t *testing.T, what string, got, want int) {
	t.Helper()
	if got != want {
		t.Errorf("%s: status %d, want %d", what, got, want)
	}
}

// TestTheDoorIsShut asks for everything without having come in, and with a session that is not ours.
func TestTheDoorIsShut(t *testing.T) {
	h := build(t)
	v := visit(h)
	for _, path := range []string{"/room/1", "/room/1/earlier?before=9", "/room/1/live", "/room/1/door", "/room/1/book", "/photo/" + strings.Repeat("0", 32) + ".jpg", "/drawing/1/0.svg"} {
		reply, _ := v.send(http.MethodGet, path, nil)
		wants(t, path, reply.StatusCode, http.StatusUnauthorized)
		reply, _ = v.send(http.MethodGet, path, nil, func(r *http.Request) {
			r.AddCookie(&http.Cookie{Name: "fettle", Value: "MTc2NDA4MDAwMHxleUp1SWpvaVVHVjBjbUVpZlE9PXxub3RoaW5n"})
		})
		wants(t, path+" with a session of one's own make", reply.StatusCode, http.StatusUnauthorized)
	}
	for _, path := range []string{"/room/1/say", "/room/1/photo", "/room/1/message/1", "/rooms", "/code"} {
		reply, _ := v.send(http.MethodPost, path, url.Values{"key": {someKey}, "text": {"x"}})
		wants(t, path, reply.StatusCode, http.StatusUnauthorized)
	}
}

// TestComingIn looks at the cookie, and at who is let in.
func TestComingIn(t *testing.T) {
	h := build(t)
	for _, code := range []string{theCode, "Oak Wedge 47", "OAKWEDGE47"} {
		reply := visit(h).join("Petra", code)
		wants(t, code, reply.StatusCode, http.StatusSeeOther)
		c := reply.Cookies()[0]
		if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || c.Path != "/" || strings.Contains(c.Value, code) {
			t.Errorf("the cookie is %+v", c)
		}
	}
	for _, name := range []string{"", "  ", "\u200b", "fettle", "Room", strings.Repeat("a", 41)} {
		wants(t, "the name "+name, visit(h).join(name, theCode).StatusCode, http.StatusForbidden)
	}
	for _, to := range []string{"//evil.example", "https://evil.example/room/", "/room//evil.example", "/static/x"} {
		reply, _ := visit(h).send(http.MethodPost, "/join", url.Values{"name": {"Petra"}, "code": {theCode}, "to": {to}})
		if got := reply.Header.Get("Location"); got != "/" {
			t.Errorf("sent on to %q by %q", got, to)
		}
	}
}

// TestOtherPagesCannotActForUs sends what a page elsewhere could have a browser send.
func TestOtherPagesCannotActForUs(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	for _, origin := range []string{"https://evil.example", "null", "http://127.0.0.1:1"} {
		reply, _ := v.say("note: x", someKey, func(r *http.Request) { r.Header.Set("Origin", origin) })
		wants(t, "a message from "+origin, reply.StatusCode, http.StatusForbidden)
		dial := websocket.Dialer{Jar: v.Jar}
		conn, reply, err := dial.Dial("ws"+strings.TrimPrefix(v.url, "http")+"/room/1/live?after=0", http.Header{"Origin": {origin}})
		if err == nil {
			conn.Close()
			t.Errorf("a connection from %s is taken", origin)
		} else if reply != nil {
			wants(t, "a connection from "+origin, reply.StatusCode, http.StatusForbidden)
		}
	}
	reply, _ := v.say("note: the sill is oak", someKey)
	wants(t, "our own", reply.StatusCode, http.StatusOK)
}

// TestEachMessageOnce sends one message five times at once: it stands in the log once.
func TestEachMessageOnce(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	done := make(chan int, 5)
	for range 5 {
		go func() {
			reply, _ := v.say("rough size for 600 by 45 finished", someKey)
			done <- reply.StatusCode
		}()
	}
	for range 5 {
		wants(t, "the same again", <-done, http.StatusOK)
	}
	_, page := v.send(http.MethodGet, "/room/1", nil)
	if n := strings.Count(page, `<p class="words">rough size`); n != 1 {
		t.Errorf("the message stands %d times on the page", n)
	}
	if n := strings.Count(page, `<div class="headline">Rough`); n != 1 {
		t.Errorf("its answer stands %d times on the page", n)
	}
}

// TestOnlyOnesOwnMessages may be changed.
func TestOnlyOnesOwnMessages(t *testing.T) {
	h := build(t)
	petra, gil := visit(h), visit(h)
	petra.join("Petra", theCode)
	gil.join("Gil", theCode)
	petra.say("the sill is oak", someKey)
	_, page := petra.send(http.MethodGet, "/room/1", nil)
	_, rest, _ := strings.Cut(page, `action="/room/1/message/`)
	id, _, _ := strings.Cut(rest, `"`)
	for _, text := range []string{"the sill is ash", ""} {
		reply, _ := gil.send(http.MethodPost, "/room/1/message/"+id, url.Values{"text": {text}})
		wants(t, "another's message", reply.StatusCode, http.StatusUnprocessableEntity)
	}
	_, page = petra.send(http.MethodGet, "/room/1", nil)
	if !strings.Contains(page, `<p class="words">the sill is oak</p>`) {
		t.Error("the message is not what Petra wrote")
	}
}

// TestWhatIsRefused tells why in a sentence, and keeps nothing.
func TestWhatIsRefused(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	for what, send := range map[string]func() (*http.Response, string){
		"no key":        func() (*http.Response, string) { return v.say("x", "") },
		"a strange key": func() (*http.Response, string) { return v.say("x", "../../etc/passwd") },
		"far too long":  func() (*http.Response, string) { return v.say(strings.Repeat("ä", 4001), someKey) },
		"a short code":  func() (*http.Response, string) { return v.send(http.MethodPost, "/code", url.Values{"code": {"oak"}}) },
	} {
		reply, body := send()
		wants(t, what, reply.StatusCode, http.StatusUnprocessableEntity)
		var told struct{ Error string }
		if json.Unmarshal([]byte(body), &told) != nil || !strings.HasSuffix(told.Error, ".") {
			t.Errorf("%s: told %q, want a sentence", what, body)
		}
	}
	if reply, _ := v.send(http.MethodGet, "/room/99", nil); reply.StatusCode != http.StatusNotFound {
		t.Errorf("a room that is not there: %d", reply.StatusCode)
	}
}

// TestWhatPagesMayDo looks at what the pages are forbidden.
func TestWhatPagesMayDo(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	for _, path := range []string{"/room/1", "/room/1/door", "/room/1/book", "/"} {
		reply, body := v.send(http.MethodGet, path, nil)
		policy := reply.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self'", "style-src 'self'", "frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%s: the policy lacks %s: %s", path, want, policy)
			}
		}
		if strings.Contains(policy, "unsafe") || strings.Contains(body, "<script>") || strings.Contains(body, " style=") || strings.Contains(body, "http://www") || strings.Contains(body, "https://") {
			t.Errorf("%s: something inline, or of another host: %s", path, body)
		}
	}
}

// TestKeysAreTheOwners: the file that signs the sessions is for nobody else's eyes, and the code
// that was made is there again after a restart.
func TestKeysAreTheOwners(t *testing.T) {
	h := build(t, func(h *hut) { h.cfg.Code = "" })
	info, err := os.Stat(h.file + ".room")
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("the keys: %v, %v", info.Mode(), err)
	}
	code := func() string {
		text, err := os.ReadFile(h.file + ".room")
		if err != nil {
			t.Fatal(err)
		}
		var k struct{ Code string }
		if err := json.Unmarshal(text, &k); err != nil {
			t.Fatal(err)
		}
		return k.Code
	}
	made := code()
	if len(strings.Split(made, "-")) != 3 {
		t.Errorf("the code made is %q", made)
	}
	v := visit(h)
	v.join("Petra", made)
	h.restart()
	if code() != made {
		t.Errorf("another code after a restart: %q, %q", code(), made)
	}
	reply, _ := v.send(http.MethodGet, "/room/1", nil)
	wants(t, "the session after a restart", reply.StatusCode, http.StatusOK)
}

// TestLateWordsSaySo: what waited on a phone for an hour was said an hour ago.
func TestLateWordsSaySo(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	v.send(http.MethodPost, "/room/1/say", url.Values{"text": {"rough size for 600 by 45 finished"}, "key": {someKey}, "aged": {"3600000"}})
	_, page := v.send(http.MethodGet, "/room/1", nil)
	if !strings.Contains(page, "Late: this was asked") || !strings.Contains(page, time.Now().UTC().Add(-time.Hour).Format("2006-01-02T15:")) {
		t.Errorf("the page does not say that it is late: %s", page)
	}
}

// TestOneLogForBothPlaces: what is said about the project elsewhere is seen in its room.
func TestOneLogForBothPlaces(t *testing.T) {
	h := build(t)
	v := visit(h)
	v.join("Petra", theCode)
	m := elsewhere("mattermost:abc", "kerf is 3.2")
	if err := h.desk.Hear(t.Context(), m); err != nil {
		t.Fatal(err)
	}
	_, page := v.send(http.MethodGet, "/room/1", nil)
	if !strings.Contains(page, "kerf is 3.2") || !strings.Contains(page, "on Mattermost") || !strings.Contains(page, "saw kerf 3.2") {
		t.Errorf("the room does not show what was said on Mattermost: %s", page)
	}
	v.say("fettle, what's the kerf", someKey)
	_, page = v.send(http.MethodGet, "/room/1", nil)
	if strings.Count(page, "aw kerf: 3.2") != 1 {
		t.Errorf("the room does not know what was set on Mattermost: %s", page)
	}
}

// TestWithACertificate serves over TLS alone, with a cookie that goes nowhere else.
func TestWithACertificate(t *testing.T) {
	folder := t.TempDir()
	h := build(t, func(h *hut) {
		h.cfg.Cert, h.cfg.Key = filepath.Join(folder, "cert.pem"), filepath.Join(folder, "key.pem")
		makeCertificate(t, h.cfg.Cert, h.cfg.Key)
	})
	v := visit(h)
	v.Transport = &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true}} // its own maker is nobody's authority
	v.url = strings.Replace(v.url, "http:", "https:", 1)
	reply := v.join("Petra", theCode)
	wants(t, "coming in", reply.StatusCode, http.StatusSeeOther)
	if c := reply.Cookies()[0]; !c.Secure {
		t.Errorf("the cookie goes without TLS too: %+v", c)
	}
	reply, _ = v.send(http.MethodGet, "/room/1", nil)
	wants(t, "the room", reply.StatusCode, http.StatusOK)
	v.url = strings.Replace(v.url, "https:", "http:", 1)
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, v.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	if reply, err := v.Do(req); err == nil && reply.StatusCode == http.StatusOK {
		t.Error("the room is served without TLS as well")
	}
}

func makeCertificate(t *testing.T, cert, key string) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	what := &x509.Certificate{SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}}
	made, err := x509.CreateCertificate(rand.Reader, what, what, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	for file, block := range map[string]*pem.Block{cert: {Type: "CERTIFICATE", Bytes: made}, key: {Type: "PRIVATE KEY", Bytes: secret}} {
		if err := os.WriteFile(file, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
