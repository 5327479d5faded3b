// Package fetch gets a page that somebody named in the chat, and nothing else: from public
// addresses only, with limits on size, time and redirects. A chat is no way into the network
// that the program runs in.
package fetch

import (
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"path"
	"strings"
	"syscall"
	"time"

	"fettle/store"
)

// The limits of one fetch.
const (
	MostBytes     = 2 << 20
	MostRedirects = 3
	MostTime      = 15 * time.Second
)

// Refusal is a fetch that is not made or not finished, said as a sentence for the chat.
type Refusal string

func (r Refusal) Error() string { return string(r) }

// The refusals that do not depend on the page.
const (
	errScheme    Refusal = "I only fetch pages whose address begins with http:// or https://."
	errPrivate   Refusal = "That address lies in a private network, and I only fetch public pages. Attach the page as a file instead."
	errRedirects Refusal = "That page sends me on to another one too often. Attach it as a file instead."
	errTooLarge  Refusal = "That page is larger than 2 MB. Attach only the price list as a file."
	errKind      Refusal = "That address holds no page or list that I can read: I read HTML and CSV."
	errSilent    Refusal = "That page can't be reached just now. Try again, or attach it as a file."
)

// Fetcher fetches pages. Allowed says which addresses it may connect to; Public is the one to use.
type Fetcher struct {
	client *http.Client
}

// New makes a fetcher. The address is checked where the connection is made, so after its name
// was resolved, and at every redirect again.
func New(allowed func(netip.Addr) bool) *Fetcher {
	dialer := &net.Dialer{Timeout: 5 * time.Second, ControlContext: func(_ context.Context, _, address string, _ syscall.RawConn) error {
		to, err := netip.ParseAddrPort(address)
		if err != nil || !allowed(to.Addr().Unmap()) {
			return errPrivate
		}
		return nil
	}}
	return &Fetcher{client: &http.Client{
		Timeout: MostTime,
		// No proxy: it would resolve the name itself, and none of this would be checked.
		Transport: &http.Transport{Proxy: nil, DialContext: dialer.DialContext, DisableKeepAlives: true,
			ResponseHeaderTimeout: 10 * time.Second, MaxResponseHeaderBytes: 64 << 10, TLSHandshakeTimeout: 5 * time.Second},
		CheckRedirect: func(r *http.Request, via []*http.Request) error {
			if len(via) > MostRedirects {
				return errRedirects
			}
			return checkURL(r.URL)
		},
	}}
}

// Page fetches an address. Its error is a Refusal, a sentence that says what to do.
func (f *Fetcher) Page(ctx context.Context, address string) (store.File, error) {
	u, err := url.Parse(address)
	if err != nil {
		return store.File{}, errScheme
	}
	if err := checkURL(u); err != nil {
		return store.File{}, err
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, u.String(), nil)
	if err != nil {
		return store.File{}, errScheme
	}
	request.Header.Set("Accept", "text/html, text/csv, text/plain;q=0.5")
	request.Header.Set("User-Agent", "fettle (price list reader)")
	response, err := f.client.Do(request)
	if err != nil {
		return store.File{}, refusal(err)
	}
	defer response.Body.Close()
	return read(u, response)
}

func checkURL(u *url.URL) error {
	if u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.User != nil {
		return errScheme
	}
	return nil
}

func refusal(err error) error {
	var no Refusal
	if errors.As(err, &no) {
		return no
	}
	return errSilent
}

func read(u *url.URL, response *http.Response) (store.File, error) {
	if response.StatusCode != http.StatusOK {
		return store.File{}, Refusal(fmt.Sprintf("That page can't be read: its server answers %d.", response.StatusCode))
	}
	media, _, err := mime.ParseMediaType(response.Header.Get("Content-Type"))
	if err != nil || media != "text/html" && media != "text/csv" && media != "text/plain" && media != "application/xhtml+xml" {
		return store.File{}, errKind
	}
	data, err := io.ReadAll(io.LimitReader(response.Body, MostBytes+1))
	switch {
	case err != nil:
		return store.File{}, errSilent
	case len(data) > MostBytes:
		return store.File{}, errTooLarge
	}
	return store.File{Name: nameOf(u, media), Media: media, Ref: u.String(), Data: data}, nil
}

// nameOf is what a fetched page is called, with the ending that its kind has.
func nameOf(u *url.URL, media string) string {
	base := strings.TrimSuffix(path.Base(u.Path), path.Ext(u.Path))
	if base == "" || base == "." || base == "/" {
		base = u.Hostname()
	}
	switch media {
	case "text/csv":
		return base + ".csv"
	case "text/plain":
		return base + ".txt"
	}
	return base + ".html"
}
