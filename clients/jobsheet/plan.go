package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/clients/internal/brief"
	"example.com/pondwright/clients/internal/page"
	"example.com/pondwright/clients/internal/session"
	"example.com/pondwright/clients/jobsheet/leaf"
	"example.com/pondwright/clients/jobsheet/sheet"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// runJob answers what goes beyond kit: the whole job, two of them side by side, an old one again, or a visit.
func runJob(ctx context.Context, a arguments, e env) int {
	if err := vacant(a, a.Page, a.Plan, a.Quantities); err != nil {
		return complain(e, exitInput, err)
	}
	bar := steps(e, 4)
	defer func() { _ = bar.Finish() }()
	q, err := readQuestion(a, e)
	if err != nil {
		return complain(e, exitInput, err)
	}
	_ = bar.Add(1)
	conn, stop, err := session.Open(ctx, a.Engine, e.Embed)
	if err != nil {
		return failed(e, err, q.at)
	}
	defer func() {
		if err := stop(); err != nil { // which takes nothing from the answer
			complain(e, exitEngine, fmt.Errorf("the engine did not stop cleanly: %w", err))
		}
	}()
	_ = bar.Add(1)
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	r, err := q.ask(ctx, a, pondwrightv1.NewJobServiceClient(conn))
	if err != nil {
		return failed(e, err, q.at)
	}
	_ = bar.Add(1)
	made, err := r.files(a)
	if err == nil {
		err = put(a, made)
	}
	if err != nil {
		return complain(e, exitEngine, fmt.Errorf("the answer cannot be written: %w", err))
	}
	_ = bar.Finish()
	if err := tell(a, e, r, made); err != nil {
		return complain(e, exitEngine, fmt.Errorf("the answer cannot be printed: %w", err))
	}
	return r.code
}

// tell prints the answer, and says which files were written.
func tell(a arguments, e env, r result, made []written) error {
	text, err := "", error(nil)
	if a.JSON {
		text, err = asJSON(r.message)
	} else {
		text = r.words(sheet.Options{Width: e.Width, Colour: e.Color && e.IsTerminal, Workings: a.Workings})
	}
	if err != nil {
		return err
	}
	if _, err := io.WriteString(e.Out, text); err != nil {
		return err
	}
	for _, f := range made {
		fmt.Fprintf(e.Err, "Written: %s, %d bytes.\n", page.Clean(f.name), len(f.text))
	}
	return nil
}

// A question is what was read of files before the engine is asked.
type question struct {
	job    *pondwrightv1.JobBrief
	beside *pondwrightv1.JobBrief
	visit  *pondwrightv1.AssessVisitRequest
	kept   *pondwrightv1.PlanJobResponse
	at     *brief.Positions
}

func readQuestion(a arguments, e env) (question, error) {
	var q question
	if a.Again != "" {
		kept, err := readPlan(a.Again)
		q.kept, q.at = kept, &brief.Positions{}
		return q, err
	}
	job, at, err := readJob(a, e)
	if err != nil {
		return q, err
	}
	q.job, q.at = job, at
	switch {
	case a.Beside != "":
		other := a
		other.Brief = a.Beside
		q.beside, _, err = readJob(other, e)
	case a.Visit != "":
		var text []byte
		if text, err = readFile(a.Visit); err == nil {
			q.visit, q.at, err = brief.ReadVisit(a.Visit, text, job)
		}
	}
	return q, err
}

// readJob reads the brief that was named, or the demonstration's, with its job.
func readJob(a arguments, e env) (*pondwrightv1.JobBrief, *brief.Positions, error) {
	name, text, err := briefText(a, e)
	if err != nil {
		return nil, nil, fmt.Errorf("the brief cannot be read: %w", err)
	}
	return brief.ReadJob(name, text)
}

func readFile(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, longestAnswer))
}

// readPlan reads a plan that was kept.
func readPlan(name string) (*pondwrightv1.PlanJobResponse, error) {
	text, err := readFile(name)
	if err != nil {
		return nil, fmt.Errorf("the plan cannot be read: %w", err)
	}
	kept := &pondwrightv1.PlanJobResponse{}
	// A plan of a newer engine may have fields that this program does not know.
	if err := (protojson.UnmarshalOptions{DiscardUnknown: true}).Unmarshal(text, kept); err != nil {
		return nil, fmt.Errorf("%s is no plan that was kept with --plan: %w", name, err)
	}
	if kept.GetAsked().GetJob() == nil {
		return nil, fmt.Errorf("%s holds no question to ask again: keep a plan with --plan", name)
	}
	return kept, nil
}

// A result is an answer in every form it can be given in.
type result struct {
	message proto.Message
	files   func(arguments) ([]written, error)
	words   func(sheet.Options) string
	code    int
}

func (q question) ask(ctx context.Context, a arguments, client pondwrightv1.JobServiceClient) (result, error) {
	room := grpc.MaxCallRecvMsgSize(longestAnswer)
	switch {
	case q.beside != nil:
		return q.askBeside(ctx, client, room)
	case q.visit != nil:
		q.visit.Workings = a.Workings
		found, err := client.AssessVisit(ctx, q.visit, room)
		return result{
			message: found, words: func(o sheet.Options) string { return sheet.Visit(q.visit, found, o) },
			files: pageOnly(func() ([]byte, error) { return leaf.VisitPage(q.visit, found) }),
		}, err
	case q.kept != nil:
		return q.askAgain(ctx, client, room)
	}
	plan, err := client.PlanJob(ctx, &pondwrightv1.PlanJobRequest{Job: q.job, Workings: a.Workings || a.Page != ""}, room)
	return planResult(plan, func(o sheet.Options) string { return sheet.Plan(plan, o) }), err
}

func planResult(plan *pondwrightv1.PlanJobResponse, words func(sheet.Options) string) result {
	r := result{message: plan, words: words, files: func(a arguments) ([]written, error) { return files(a, plan) }}
	if plan.GetKit().GetKit() == nil {
		r.code = exitInfeasible
	}
	return r
}

// pageOnly is for answers of which nothing else is written.
func pageOnly(page func() ([]byte, error)) func(arguments) ([]written, error) {
	return func(a arguments) ([]written, error) {
		if a.Page == "" {
			return nil, nil
		}
		text, err := page()
		return []written{{a.Page, text}}, err
	}
}

// askBeside plans both jobs, so that the page can set them side by side, and asks what changes.
func (q question) askBeside(ctx context.Context, client pondwrightv1.JobServiceClient, room grpc.CallOption) (result, error) {
	changes, err := client.ComparePlans(ctx, &pondwrightv1.ComparePlansRequest{
		Before: q.job, After: &pondwrightv1.ComparePlansRequest_Job{Job: q.beside},
	}, room)
	names := [2]string{q.job.GetBrief().GetTitle(), q.beside.GetBrief().GetTitle()}
	return result{
		message: changes, words: func(o sheet.Options) string { return sheet.Beside(names, changes, o) },
		files: pageOnly(func() ([]byte, error) { return leaf.BesidePage(names, changes) }),
	}, err
}

// askAgain asks the question of a plan that was kept.
func (q question) askAgain(ctx context.Context, client pondwrightv1.JobServiceClient, room grpc.CallOption) (result, error) {
	p := q.kept.GetProvenance()
	former := &pondwrightv1.FormerPlan{
		EngineVersion: p.GetEngineVersion(), MethodSet: p.GetMethodSet(), RequestDigest: p.GetRequestDigest(), AnswerDigest: q.kept.GetAnswerDigest(),
		Figures: q.kept.GetFigures(),
	}
	for _, c := range p.GetCatalogues() {
		former.Catalogues = append(former.Catalogues, &pondwrightv1.FormerCatalogue{Catalogue: c.GetCatalogue(), Revision: c.GetRevision()})
	}
	again, err := client.RecheckPlan(ctx, &pondwrightv1.RecheckPlanRequest{Asked: q.kept.GetAsked(), Former: former}, room)
	r := planResult(again.GetPlan(), func(o sheet.Options) string { return sheet.Again(again, o) })
	r.message = again
	return r, err
}
