package gate

import (
	"sync"
)

// mostStrangers bounds what is remembered of callers without a name.
const mostStrangers = 10_000

// strangers are callers who are known by nothing but their address. The list begins anew when it is full, which gives those
// on it a fresh burst and costs nothing else.
type strangers struct {
	mu   sync.RWMutex
	held map[string]*Caller
}

func newStrangers() *strangers { return &strangers{held: map[string]*Caller{}} }

func (s *strangers) caller(name string, make func() *Caller) *Caller {
	s.mu.RLock()
	c := s.held[name]
	s.mu.RUnlock()
	if c != nil {
		return c
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if c := s.held[name]; c != nil {
		return c
	}
	if len(s.held) >= mostStrangers {
		clear(s.held)
	}
	c = make()
	s.held[name] = c
	return c
}
