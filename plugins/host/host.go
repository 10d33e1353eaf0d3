// Package host is the gatehouse between the engine and catalogue plugins. It starts a plugin, checks that it is the right
// file, reads its whole catalogue with every item checked, and stops it for good. A plugin may crash, hang, lie, flood or be
// the wrong file: what comes back is a Failure that names it, and no process and no socket is left behind.
//
// What it cannot hold: a child of a plugin that moves to a session of its own leaves the group that is killed. Where plugins
// are not trusted that far, run the engine in a control group and stop that.
package host

import (
	"context"
	"errors"
	"log/slog"
	"os"
	"time"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Config is what a Host needs.
type Config struct {
	Logger  *slog.Logger      // hears of each plugin's start and end, and all it writes; discarded when nil
	Checker *contract.Checker // built when nil
	TempDir string            // where the sockets go; the system's folder for temporary files when empty

	// StopGrace is how long a plugin that has answered well may take to stop before it is killed; 2 s when 0. One that has
	// failed is killed at once.
	StopGrace time.Duration
}

// Host reads catalogues. It may read several at once.
type Host struct {
	log     *slog.Logger
	checker *contract.Checker
	workDir string
	grace   time.Duration
}

// New makes a Host. Close it when no more catalogues are to be read.
func New(cfg Config) (*Host, error) {
	h := &Host{log: cfg.Logger, checker: cfg.Checker, grace: cfg.StopGrace}
	if h.log == nil {
		h.log = slog.New(slog.DiscardHandler)
	}
	if h.grace <= 0 {
		h.grace = 2 * time.Second
	}
	base := cfg.TempDir
	if base == "" {
		base = os.TempDir()
	}
	var err error
	if h.checker == nil {
		h.checker, err = contract.NewChecker()
		if err != nil {
			return nil, err
		}
	}
	h.workDir, err = makeWorkDir(base)
	return h, err
}

// Close removes the host's folder. Call it after the last Read has returned.
func (h *Host) Close() error { return os.RemoveAll(h.workDir) }

// Catalogue is one merchant's range as it was read: the items that passed every check, and those that did not.
type Catalogue struct {
	Name        string
	Description *cataloguev1.DescribeResponse
	Items       []*equipmentv1.Item // in the order of their numbers
	Quarantined []Quarantined       // in the order they came
}

// Quarantined is an item that is not served, and why: the plugin cannot give it, or it does not pass the checks.
type Quarantined struct {
	ItemNumber string
	Position   int // in the stream, from 0; of one message its items come first
	Problems   []contract.Problem
}

// Read starts a plugin, reads its catalogue and stops it. Any error is a *Failure. When it returns, the plugin is gone.
func (h *Host) Read(ctx context.Context, p Plugin) (*Catalogue, error) {
	c, s, err := h.read(ctx, p)
	if err != nil {
		return nil, err
	}
	s.stop(h.grace)
	return c, nil
}

// Open reads a catalogue as Read does, and keeps the plugin running where it answers questions of the moment. Where it does
// not, the Live is nil and the plugin is gone. Stop a Live before the host is closed.
func (h *Host) Open(ctx context.Context, p Plugin) (*Catalogue, *Live, error) {
	c, s, err := h.read(ctx, p)
	if err != nil {
		return nil, nil, err
	}
	if !answersLive(c.Description) {
		s.stop(h.grace)
		return c, nil, nil
	}
	return c, &Live{session: s, grace: h.grace}, nil
}

// answersLive says whether a plugin claims any question that this host knows to ask.
func answersLive(d *cataloguev1.DescribeResponse) bool {
	return contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_STOCK) || contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_PRICE)
}

// read starts a plugin and reads its catalogue. The session is the caller's to stop; where there is an error it has ended.
func (h *Host) read(ctx context.Context, p Plugin) (*Catalogue, *session, error) {
	p = p.withDefaults()
	if err := p.check(); err != nil {
		return nil, nil, &Failure{Plugin: p.Name, What: err.Error(), Change: "mend the configuration of the plugin", Err: ErrConfig}
	}
	log := h.log.With("plugin", p.Name)
	if err := p.verify(log); err != nil {
		return nil, nil, err
	}
	began := time.Now()
	s, err := h.start(ctx, p, log)
	if err != nil {
		return nil, nil, err
	}
	c, err := h.collect(ctx, p, s.catalogue)
	if err != nil {
		err = s.explain(err)
		s.stop(0)
		return nil, nil, err
	}
	logCatalogue(log, c, time.Since(began))
	return c, s, nil
}

// ReadDirect reads a catalogue in the same process, with the same checks and limits and without a plugin to start. Of p only
// the name and the limits are used.
func (h *Host) ReadDirect(ctx context.Context, p Plugin, from contract.Catalogue) (*Catalogue, error) {
	began := time.Now()
	c, err := h.collect(ctx, p.withDefaults(), from)
	if err != nil {
		return nil, err
	}
	logCatalogue(h.log.With("plugin", p.Name), c, time.Since(began))
	return c, nil
}

// logCatalogue says in one line what was read, and in one line an item what was not.
func logCatalogue(log *slog.Logger, c *Catalogue, took time.Duration) {
	log.Debug("catalogue read", "title", c.Description.GetTitle(), "revision", c.Description.GetRevision(),
		"items", len(c.Items), "quarantined", len(c.Quarantined), "took", took)
	for i, q := range c.Quarantined {
		if i == maxQuarantineLog {
			log.Warn("more items are quarantined than are logged", "quarantined", len(c.Quarantined))
			return
		}
		log.Warn("item quarantined", "item_number", oneLine(q.ItemNumber), "position", q.Position, "problems", oneLine(contract.Join(q.Problems)))
	}
}

// maxQuarantineLog is how many bad items of one catalogue are logged one by one.
const maxQuarantineLog = 100

// IsTemporary says whether reading again later may help without anyone changing anything: a crash, a hang or a start that
// failed may pass, a wrong file, a wrong version or a wrong configuration will not.
func IsTemporary(err error) bool {
	return errors.Is(err, ErrStart) || errors.Is(err, ErrCall)
}
