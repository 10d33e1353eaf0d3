package operate

import (
	"context"
	"crypto/sha256"
	"fmt"
	"log/slog"
	"os"
	"slices"
	"sync"
	"time"

	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/gate"
)

// clientsFile keeps the clients of a file in force, beside those of the settings.
type clientsFile struct {
	path  string
	fixed []config.Client
	gate  *gate.Gate
	log   *slog.Logger
	mu    sync.Mutex
	read  [sha256.Size]byte
}

// refresh puts the file in force if it has changed. One with a fault leaves what was in force.
func (c *clientsFile) refresh() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.path == "" {
		return nil
	}
	text, err := os.ReadFile(c.path)
	if err != nil {
		return fmt.Errorf("clients: %w", err)
	}
	sum := sha256.Sum256(text)
	if sum == c.read {
		return nil
	}
	listed, err := config.ReadClients(c.path)
	if err != nil {
		return err
	}
	all := slices.Concat(c.fixed, listed)
	if err := config.CheckClients(all); err != nil {
		return err
	}
	c.gate.SetClients(all)
	c.read = sum
	c.log.Info("clients in force", "clients", len(all))
	return nil
}

// follow refreshes every so often until ctx ends, and logs a fault once, until it is another.
func (c *clientsFile) follow(ctx context.Context, every time.Duration) {
	tick := time.NewTicker(every)
	defer tick.Stop()
	last := ""
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		said := ""
		if err := c.refresh(); err != nil {
			said = err.Error()
		}
		if said != "" && said != last {
			c.log.Error("clients not renewed; those before stay in force", "error", said)
		}
		last = said
	}
}
