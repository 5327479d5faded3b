package fetch

import "net/netip"

// notPublic are the ranges beside those that netip knows by name which lead to no public server
// (IANA special-purpose address registries, RFC 6890 and its updates), or through which a private
// address can be written as another.
var notPublic = []netip.Prefix{
	netip.MustParsePrefix("0.0.0.0/8"),       // this network
	netip.MustParsePrefix("100.64.0.0/10"),   // shared by a provider's customers, RFC 6598
	netip.MustParsePrefix("192.0.0.0/24"),    // protocol assignments
	netip.MustParsePrefix("192.0.2.0/24"),    // documentation
	netip.MustParsePrefix("198.18.0.0/15"),   // benchmarks
	netip.MustParsePrefix("198.51.100.0/24"), // documentation
	netip.MustParsePrefix("203.0.113.0/24"),  // documentation
	netip.MustParsePrefix("240.0.0.0/4"),     // reserved, broadcast
	netip.MustParsePrefix("::/96"),           // IPv4 inside IPv6, deprecated
	netip.MustParsePrefix("64:ff9b::/96"),    // IPv4 through a translator, RFC 6052
	netip.MustParsePrefix("64:ff9b:1::/48"),  // the same, local, RFC 8215
	netip.MustParsePrefix("100::/64"),        // discarded
	netip.MustParsePrefix("2001::/23"),       // protocol assignments, tunnels
	netip.MustParsePrefix("2001:db8::/32"),   // documentation
	netip.MustParsePrefix("2002::/16"),       // IPv4 inside IPv6, RFC 3056
	netip.MustParsePrefix("3fff::/20"),       // documentation, RFC 9637
	netip.MustParsePrefix("5f00::/16"),       // segment routing
	netip.MustParsePrefix("fec0::/10"),       // site-local, deprecated
}

// Public says whether an address belongs to the public network: not to this machine, its link,
// a private network or a range set apart.
func Public(a netip.Addr) bool {
	a = a.Unmap()
	if !a.IsValid() || !a.IsGlobalUnicast() || a.IsPrivate() || a.IsLoopback() || a.IsLinkLocalUnicast() || a.IsMulticast() || a.Zone() != "" {
		return false
	}
	for _, p := range notPublic {
		if p.Contains(a) {
			return false
		}
	}
	return true
}
