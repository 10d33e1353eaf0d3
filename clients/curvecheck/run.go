package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/curvecheck/intake"
	"example.com/pondwright/clients/internal/page"
	"example.com/pondwright/clients/internal/session"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// env is what the program has of the world.
type env struct {
	In       io.Reader
	Out, Err io.Writer
	Watched  bool          // somebody looks at Err
	Embed    session.Embed // starts the engine inside this program
}

// The program's exit codes.
const (
	exitSound  = 0
	exitFaults = 1
	exitInput  = 2
	exitEngine = 3
)

// inputError is the error of a file that cannot be read, or of a copy that cannot be written.
type inputError struct{ error }

func (e inputError) Unwrap() error { return e.error }

// run is the program.
func run(ctx context.Context, args []string, e env) int {
	a, err := parse(args, e)
	if errors.Is(err, errHelped) {
		return exitSound
	}
	if err != nil {
		return complain(e, exitInput, err, "curvecheck --help shows how it is used.")
	}
	conn, stop, err := connect(ctx, a, e)
	switch {
	case errors.Is(err, session.ErrAddress):
		return complain(e, exitInput, err)
	case err != nil:
		return complain(e, exitEngine, err)
	}
	defer func() {
		if err := stop(); err != nil { // which takes nothing from the findings
			complain(e, exitEngine, fmt.Errorf("the engine did not stop cleanly: %w", err))
		}
	}()
	j := &job{arguments: a, env: e, client: pondwrightv1.NewCurveServiceClient(conn), printer: newPrinter(a.Findings, e.Out)}
	if err := j.all(ctx); err != nil {
		return failed(e, err)
	}
	if j.faults {
		return exitFaults
	}
	return exitSound
}

// job is one run of the program.
type job struct {
	arguments
	env
	client  pondwrightv1.CurveServiceClient
	printer printer
	report  *report
	faults  bool // as grave as --fail-from, or a cell unread
}

func (j *job) all(ctx context.Context) (err error) {
	if j.Report != "" {
		if j.report, err = newReport(j.Report); err != nil {
			return inputError{err}
		}
		defer func() { err = errors.Join(err, j.report.close(err == nil)) }()
	}
	if j.Held != "" {
		return j.held(ctx)
	}
	for _, path := range j.Files {
		if err := j.file(ctx, path); err != nil {
			return err
		}
	}
	return nil
}

func (j *job) options() *pondwrightv1.CurveCheckOptions {
	return &pondwrightv1.CurveCheckOptions{Grade: j.Grade}
}

// file checks one file.
func (j *job) file(ctx context.Context, path string) error {
	if j.Repair {
		if err := absent(intake.CorrectedPath(path), changesPath(path)); err != nil {
			return inputError{err}
		}
	}
	r, err := intake.Open(path, j.In, j.Column)
	if err != nil {
		return inputError{err}
	}
	defer r.Close()
	for _, said := range r.Reads() {
		fmt.Fprintf(j.Err, "%s: %s\n", page.Clean(path), page.Clean(said))
	}
	bar := j.bar(r)
	var mended repairs
	curves, drawn := 0, time.Now()
	tell := func(item intake.Item, place int, found *pondwrightv1.CurveResult) error {
		curves++
		if bar != nil && time.Since(drawn) > 100*time.Millisecond {
			drawn = time.Now()
			bar.Describe(fmt.Sprintf("%d curves", curves))
			bar.Set64(r.Read())
		}
		f := faulty{file: path, item: item, place: place, found: found}
		if found == nil && len(item.Problems) == 0 {
			return nil
		}
		j.weigh(f)
		if j.Repair {
			mended.add(f)
		}
		if j.report != nil {
			if err := j.report.fault(f); err != nil {
				return err
			}
		}
		return j.printer.fault(f)
	}
	review, err := j.check(ctx, fromReader(r, perMessage), fromReader(r, perBlock), tell)
	if bar != nil {
		bar.Clear()
	}
	if err != nil {
		return err
	}
	if j.report != nil {
		j.report.end(path, review)
	}
	if err := j.printer.end(path, review); err != nil {
		return err
	}
	if j.Repair {
		return j.write(path, &mended)
	}
	return nil
}

func (j *job) check(ctx context.Context, small, large supply, tell each) (*pondwrightv1.CurveReview, error) {
	if len(j.Engine) > 1 {
		return checkShared(ctx, j.client, j.options(), len(j.Engine), large, tell)
	}
	return checkStream(ctx, j.client, j.options(), small, tell)
}

// weigh remembers whether anything was as grave as the person asked about.
func (j *job) weigh(f faulty) {
	least := map[string]pondwrightv1.Severity{
		"note": pondwrightv1.Severity_SEVERITY_NOTE, "caution": pondwrightv1.Severity_SEVERITY_CAUTION, "stop": pondwrightv1.Severity_SEVERITY_STOP,
	}[j.FailFrom]
	j.faults = j.faults || len(f.item.Problems) > 0
	for _, d := range f.found.GetDefects() {
		j.faults = j.faults || d.GetSeverity() >= least
	}
}

// bar shows how far a file is read, how fast, and how long it takes yet.
func (j *job) bar(r *intake.Reader) *progressbar.ProgressBar {
	if !j.Watched || j.Unwatched || r.Size == 0 {
		return nil
	}
	return progressbar.NewOptions64(r.Size, progressbar.OptionSetWriter(j.Err), progressbar.OptionShowBytes(true),
		progressbar.OptionSetPredictTime(true), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(24))
}

// held checks the pumps of a catalogue that the engine holds.
func (j *job) held(ctx context.Context) error {
	req := &pondwrightv1.ReviewCatalogueRequest{Catalogue: j.Held, Options: j.options()}
	if j.Held == "*" {
		req.Catalogue = ""
	}
	resp, err := j.client.ReviewCatalogue(ctx, req, grpc.MaxCallRecvMsgSize(longestAnswer))
	if err != nil {
		return err
	}
	for _, found := range resp.GetResults() {
		f := faulty{file: j.Held, place: int(found.GetPlace()), found: found, item: intake.Item{Row: int(found.GetPlace()) + 1, Message: &pondwrightv1.CurveItem{ItemNumber: found.GetItemNumber()}}}
		j.weigh(f)
		if j.report != nil {
			if err := j.report.fault(f); err != nil {
				return err
			}
		}
		if err := j.printer.fault(f); err != nil {
			return err
		}
	}
	if j.report != nil {
		j.report.end(j.Held, resp.GetReview())
	}
	return j.printer.end(j.Held, resp.GetReview())
}

// complain prints an error, and lines of advice, without whatever a terminal would obey.
func complain(e env, code int, err error, advice ...string) int {
	fmt.Fprintln(e.Err, page.Clean(err.Error()))
	for _, line := range advice {
		fmt.Fprintln(e.Err, line)
	}
	return code
}

// failed says what went wrong, and whose turn it is to mend it.
func failed(e env, err error) int {
	var input inputError
	if errors.As(err, &input) {
		return complain(e, exitInput, err)
	}
	s, ok := status.FromError(err)
	switch {
	case !ok:
		return complain(e, exitInput, err)
	case s.Code() == codes.InvalidArgument, s.Code() == codes.NotFound:
		return complain(e, exitInput, errors.New(s.Message()))
	case s.Code() == codes.Canceled:
		return complain(e, exitEngine, errors.New("stopped"))
	}
	return complain(e, exitEngine, fmt.Errorf("the engine failed (%s): %s", s.Code(), s.Message()))
}
