package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"google.golang.org/grpc"

	"example.com/pondwright/server/embedded"
	"example.com/pondwright/server/internal/audit"
)

type auditCommand struct {
	Verify verifyCommand `cmd:"" help:"Hold an audit log to its hashes, and say where it ends."`
}

type verifyCommand struct {
	Folder string `arg:"" help:"Folder of the audit log."`
	Ends   string `env:"-" placeholder:"HASH" help:"Hash the log must end with or contain: one written down elsewhere shows whether entries were cut off its end."`
}

// Run verifies a log.
func (c verifyCommand) Run(e environment) error {
	files, err := audit.Files(c.Folder)
	if err != nil {
		return err
	}
	seen := c.Ends == ""
	end, err := audit.Verify(files, func(entry audit.Entry) error {
		seen = seen || entry.Hash == c.Ends
		return nil
	})
	switch {
	case err != nil:
		return fmt.Errorf("the audit log is not whole: after %d good entries, %w", end.Entries, err)
	case !seen:
		return fmt.Errorf("the audit log is not whole: no entry has the hash %q; entries were cut off its end", c.Ends)
	}
	_, err = fmt.Fprintf(e.out, "%d entries in %d files, from number %d on, follow from one another; the last has the hash %s\n",
		end.Entries, len(files), end.First, end.Hash)
	return err
}

type replayCommand struct {
	Files []string `arg:"" help:"Files of an audit log, in order."`
}

// errDiffers says that at least one answer is another.
var errDiffers = errors.New("not every answer is what it was")

// Run asks the questions of a log again, of an engine inside this program with the catalogues of the settings.
func (c replayCommand) Run(o *options, e environment) (err error) {
	if err := o.check(); err != nil {
		return err
	}
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer cancel()
	catalogues, clean, err := sources(&o.Settings)
	if err != nil {
		return err
	}
	conn, closing, err := embedded.With(ctx, logger(o.Log, e.errs), catalogues)
	if err != nil {
		return errors.Join(err, clean())
	}
	defer func() { err = errors.Join(err, closing(), clean()) }()
	return c.replay(ctx, conn, e)
}

func (c replayCommand) replay(ctx context.Context, conn *grpc.ClientConn, e environment) error {
	asked, differ, skipped := 0, 0, 0
	_, err := audit.Verify(c.Files, func(entry audit.Entry) error {
		outcome, err := audit.Replay(ctx, conn, entry)
		if err != nil {
			return err
		}
		if outcome.Skipped != "" {
			skipped++
			return nil
		}
		asked++
		if len(outcome.Differences) == 0 {
			return nil
		}
		differ++
		fmt.Fprintf(e.out, "entry %d, %s of %s, method set %s then:\n", entry.Number, entry.Method, entry.Time.Format("2006-01-02 15:04:05"), entry.MethodSet)
		for _, d := range append(outcome.Catalogues, outcome.Differences...) {
			fmt.Fprintf(e.out, "  %s\n", d)
		}
		return nil
	})
	fmt.Fprintf(e.out, "%d questions asked again, %d with another answer; %d not asked\n", asked, differ, skipped)
	if err == nil && differ > 0 {
		return errDiffers
	}
	return err
}
