package operate

import (
	"net"

	"golang.org/x/net/netutil"
)

// Bounded lets so many connections be open at once; more wait until one is closed.
func Bounded(l net.Listener, most int) net.Listener { return netutil.LimitListener(l, most) }
