package room

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/gorilla/securecookie"
	"golang.org/x/time/rate"

	"fettle/store"
)

const (
	cookieName  = "fettle"
	sessionDays = 90
	longestName = 40 // characters

	tries      = 5 // of one address, before it has to wait
	tryAgain   = time.Minute
	triesOfAll = 60 // of all addresses together, refilled at one in two seconds
	mostWatch  = 10_000
)

// person is somebody who came in: the name that the phone goes by.
type person struct {
	Name string `json:"n"`
	Gen  string `json:"g"` // of the code by which they came in
}

// key is the person's own id: the same on the phone and on the laptop.
func (p person) key() string { return store.Fold(p.Name) }

// door lets people in by the code and knows them again by a signed cookie.
type door struct {
	keys   *keys
	seal   *securecookie.SecureCookie
	secure bool
	now    func() time.Time

	mu       sync.Mutex
	perhaps  map[string]*rate.Limiter // by address
	everyone *rate.Limiter
}

func newDoor(k *keys, secure bool, now func() time.Time) *door {
	seal := securecookie.New(k.Secret, nil).MaxAge(sessionDays * 24 * 60 * 60)
	seal.SetSerializer(securecookie.JSONEncoder{})
	return &door{keys: k, seal: seal, secure: secure, now: now,
		perhaps: map[string]*rate.Limiter{}, everyone: rate.NewLimiter(rate.Every(2*time.Second), triesOfAll)}
}

// generation names the present code without giving it away; with another code every session ends.
func (d *door) generation() string {
	mac := hmac.New(sha256.New, d.keys.Secret)
	mac.Write([]byte("code:" + d.keys.code()))
	return hex.EncodeToString(mac.Sum(nil)[:8])
}

// who knows somebody again who came in earlier.
func (d *door) who(r *http.Request) (person, bool) {
	c, err := r.Cookie(cookieName)
	if err != nil {
		return person{}, false
	}
	var p person
	if d.seal.Decode(cookieName, c.Value, &p) != nil || p.Gen != d.generation() {
		return person{}, false
	}
	return p, true
}

// refusal is a sentence for a person: why something was not done.
type refusal string

func (r refusal) Error() string { return string(r) }

// The ways in which nobody is let in.
const (
	errWrongCode refusal = "That isn’t the code. It is printed where fettle was started, and shown on the page of whoever is in."
	errTooOften  refusal = "Too many wrong codes. Wait a minute, then try again."
	errName      refusal = "Which name do you go by? Up to 40 letters; “fettle” and “room” are taken."
)

// enter lets somebody in who knows the code, and gives the cookie to know them by.
func (d *door) enter(r *http.Request, code, name string) (*http.Cookie, error) {
	name, ok := cleanName(name)
	if !ok {
		return nil, errName
	}
	from := address(r)
	if !d.mayTry(from) {
		return nil, errTooOften
	}
	if !sameCode(code, d.keys.code()) {
		return nil, errWrongCode
	}
	d.forgive(from)
	value, err := d.seal.Encode(cookieName, person{Name: name, Gen: d.generation()})
	if err != nil {
		return nil, err
	}
	return d.cookie(value, sessionDays*24*60*60), nil
}

func (d *door) cookie(value string, maxAge int) *http.Cookie {
	return &http.Cookie{Name: cookieName, Value: value, Path: "/", MaxAge: maxAge, HttpOnly: true, Secure: d.secure, SameSite: http.SameSiteLaxMode}
}

// sameCode compares in a time that tells nothing. Case and what joins the words don't matter: a
// phone's keyboard has its own ideas of them.
func sameCode(a, b string) bool {
	x, y := sha256.Sum256([]byte(store.Fold(a))), sha256.Sum256([]byte(store.Fold(b)))
	return hmac.Equal(x[:], y[:])
}

// mayTry counts a try from an address, and says whether it is to be looked at.
func (d *door) mayTry(from string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	limit := d.perhaps[from]
	if limit == nil {
		if len(d.perhaps) >= mostWatch {
			clear(d.perhaps) // the limit for all together holds on
		}
		limit = rate.NewLimiter(rate.Every(tryAgain), tries)
		d.perhaps[from] = limit
	}
	now := d.now()
	return limit.AllowN(now, 1) && d.everyone.AllowN(now, 1)
}

func (d *door) forgive(from string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.perhaps, from)
}

func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// cleanName takes what nobody can see out of a name, and says whether it is one.
func cleanName(name string) (string, bool) {
	name = strings.Map(func(r rune) rune {
		if !unicode.IsGraphic(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(name, ""))
	name = strings.Join(strings.Fields(name), " ")
	folded := store.Fold(name)
	return name, folded != "" && folded != "fettle" && folded != keeper && utf8.RuneCountInString(name) <= longestName
}
