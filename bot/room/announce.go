package room

import (
	"fmt"
	"net"
	"net/url"
	"strings"

	"github.com/skip2/go-qrcode"
)

// announce prints where the room is and how one comes in.
func (r *Room) announce(at net.Addr) {
	out := r.cfg.Out
	addresses := r.reachable(at)
	fmt.Fprintf(out, "The room is open:\n")
	for _, a := range addresses {
		fmt.Fprintf(out, "  %s\n", a)
	}
	fmt.Fprintf(out, "The code is %s\n", r.door.keys.code())
	if only := onlyHere(at); only {
		fmt.Fprintf(out, "Only this machine reaches it. For phones in the same network: --listen 0.0.0.0:%d\n", port(at))
		return
	}
	if q, err := qrcode.New(r.link(addresses[0]), qrcode.Low); err == nil {
		fmt.Fprintf(out, "Or point a phone's camera at this:\n%s", q.ToSmallString(false))
	}
	if r.cfg.Cert == "" {
		fmt.Fprintln(out, "It is not encrypted: use it in a network that you trust, or with --cert and --key.")
	}
}

// link is an address with the code behind it. The code stands where browsers keep it to
// themselves: it reaches no log and no other server.
func (r *Room) link(address string) string {
	return address + "#" + url.Values{"code": {r.door.keys.code()}}.Encode()
}

func onlyHere(at net.Addr) bool {
	tcp, ok := at.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}

func port(at net.Addr) int {
	if tcp, ok := at.(*net.TCPAddr); ok {
		return tcp.Port
	}
	return 0
}

// reachable lists the addresses to type into a phone, the likeliest first.
func (r *Room) reachable(at net.Addr) []string {
	scheme := "http"
	if r.cfg.Cert != "" {
		scheme = "https"
	}
	tcp, ok := at.(*net.TCPAddr)
	if !ok {
		return []string{scheme + "://" + at.String() + "/"}
	}
	ips := []net.IP{tcp.IP}
	if tcp.IP.IsUnspecified() {
		ips = append(ownAddresses(), net.IPv4(127, 0, 0, 1))
	}
	out := make([]string, len(ips))
	for i, ip := range ips {
		out[i] = fmt.Sprintf("%s://%s/", scheme, net.JoinHostPort(ip.String(), fmt.Sprint(tcp.Port)))
	}
	return out
}

// ownAddresses lists this machine's addresses in its networks, the short ones first.
func ownAddresses() (ips []net.IP) {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var long []net.IP
	for _, a := range addresses {
		n, ok := a.(*net.IPNet)
		switch {
		case !ok || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast():
		case n.IP.To4() != nil:
			ips = append(ips, n.IP)
		default:
			long = append(long, n.IP)
		}
	}
	return append(ips, long...)
}

// quiet is the clear border that a QR code needs, in squares.
const quiet = 4

// picture draws a QR code as the path of an SVG on a square of the size given.
func picture(text string) (path string, size int, err error) {
	q, err := qrcode.New(text, qrcode.Low)
	if err != nil {
		return "", 0, fmt.Errorf("draw a QR code: %w", err)
	}
	q.DisableBorder = true
	rows := q.Bitmap()
	var b strings.Builder
	for y, row := range rows {
		for x, black := range row {
			if black {
				fmt.Fprintf(&b, "M%d %dh1v1h-1z", x+quiet, y+quiet)
			}
		}
	}
	return b.String(), len(rows) + 2*quiet, nil
}
