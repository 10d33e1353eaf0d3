package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

func TestTheBriefNamedIsTheOneAsked(t *testing.T) {
	f := answering(t, "works.json")
	got := start(t, f, nil, "--kits", "5", "--workings", briefFile(t, strings.Replace(demoBrief, "11", "7.5", 1)))
	assert.Equal(t, exitFeasible, got.code)
	assert.Empty(t, got.err)
	assert.InDelta(t, 7.5, f.asked.GetBrief().GetDelivery().GetHoseLengthM(), 0)
	assert.EqualValues(t, 5, f.asked.GetMaxKits())
	assert.True(t, f.asked.GetWorkings())
}

func TestWithoutABriefTheDemonstrationIsAsked(t *testing.T) {
	f := answering(t, "works.json")
	got := start(t, f, nil)
	assert.Equal(t, exitFeasible, got.code)
	assert.Equal(t, "No brief was named, so this is the demonstration pond briefs/demo.yaml.\n", got.err)
	assert.Equal(t, "Two bays and a cascade (invented)", f.asked.GetBrief().GetTitle())
	assert.EqualValues(t, 3, f.asked.GetMaxKits())
	assert.False(t, f.asked.GetWorkings())
}

func TestABriefCanComeFromStandardInput(t *testing.T) {
	f := answering(t, "works.json")
	got := start(t, f, func(e *env) { e.In = strings.NewReader(demoBrief) }, "-")
	assert.Equal(t, exitFeasible, got.code)
	assert.NotNil(t, f.asked)
}

func TestJSONIsTheAnswerAndNothingElse(t *testing.T) {
	for name, code := range map[string]int{"works.json": exitFeasible, "misses.json": exitInfeasible} {
		f := answering(t, name)
		got := start(t, f, nil, "--json")
		assert.Equal(t, code, got.code)
		assert.Empty(t, got.err)

		back := &pondwrightv1.SuggestKitsResponse{}
		require.NoError(t, protojson.Unmarshal([]byte(got.out), back))
		assert.True(t, proto.Equal(f.answer, back))

		assert.Contains(t, got.out, "\n  \"pond\": {\n    \"volume_l\": 19037.4,\n", "names of the proto, indented by two")
		var indented bytes.Buffer
		require.NoError(t, json.Indent(&indented, []byte(got.out), "", "  "))
		assert.Equal(t, indented.String(), got.out)
	}
}

func TestBadInputEndsWithTwo(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		says string
	}{
		"unknown flag":    {[]string{"--colour"}, "unknown flag --colour"},
		"two briefs":      {[]string{"a.yaml", "b.yaml"}, "unexpected argument b.yaml"},
		"no number":       {[]string{"--kits", "many"}, "--kits"},
		"no kits":         {[]string{"--kits", "0"}, "--kits takes a number from 1 to 50\njobsheet --help shows how it is used.\n"},
		"too many kits":   {[]string{"--kits=51"}, "--kits takes a number from 1 to 50"},
		"no such file":    {[]string{"no/such/brief.yaml"}, "the brief cannot be read: open no/such/brief.yaml"},
		"a folder":        {[]string{"."}, "the brief cannot be read: read .:"},
		"no port":         {[]string{"--engine", "localhost"}, `an engine's address is HOST:PORT, such as localhost:4860: not "localhost"`},
		"empty brief":     {[]string{os.DevNull}, os.DevNull + ":1:1: the file is empty; describe a pond in it"},
		"mistaken brief":  {[]string{briefFile(t, "titel: x\npond: 3\n")}, "pond.yaml:1:1: titel: titel is not a field here; use title\n"},
		"all at once":     {[]string{briefFile(t, "titel: x\npond: 3\n")}, "pond.yaml:2:7: pond: the number 3 stands where a block of fields is wanted; give its fields: bays, saddle_depth_m, displacing\n"},
		"a name to fear":  {[]string{"\x1b[2J.yaml"}, "open <U+001B>[2J.yaml"},
		"a flag to fear":  {[]string{"--\x1b[2J"}, "<U+001B>"},
		"a brief to fear": {[]string{briefFile(t, `"\e[2J": 1`)}, `"\x1b[2J" is not a field here`},
	} {
		t.Run(name, func(t *testing.T) {
			f := answering(t, "works.json")
			got := start(t, f, nil, c.args...)
			assert.Equal(t, exitInput, got.code)
			assert.Empty(t, got.out)
			assert.Contains(t, got.err, c.says)
			assert.NotContains(t, got.err, "\x1b")
			assert.Nil(t, f.asked, "the engine is not asked")
		})
	}
}

func TestHelpIsNoFailure(t *testing.T) {
	got := start(t, answering(t, "works.json"), nil, "--help")
	assert.Equal(t, exitFeasible, got.code)
	assert.Contains(t, got.out, "--engine=HOST:PORT")
	assert.Contains(t, got.out, "licensed electrician")
}

func TestWhatTheEngineRefusesIsShownAtItsLine(t *testing.T) {
	st, err := status.New(codes.InvalidArgument, "request is not valid").WithDetails(&errdetails.BadRequest{
		FieldViolations: []*errdetails.BadRequest_FieldViolation{
			{Field: "brief.delivery.hose_length_m", Description: "the hose cannot be shorter than the lift"},
			{Field: "brief.pond.bays[0].steps[0].depth_m", Description: "no such step"},
			{Field: "brief", Description: "this is no pond"},
			{Field: "max_kits", Description: "too\x1b[2Jmany"},
		}})
	require.NoError(t, err)
	path := briefFile(t, demoBrief)
	got := start(t, &fakeEngine{err: st.Err()}, nil, path)
	assert.Equal(t, exitInput, got.code)
	assert.Empty(t, got.out)
	assert.Equal(t, path+":1:1: brief: this is no pond\n"+
		path+":1:1: max_kits: too<U+001B>[2Jmany\n"+
		path+":4:7: pond.bays[0].steps[0].depth_m: no such step\n"+
		path+":11:18: delivery.hose_length_m: the hose cannot be shorter than the lift\n", got.err)
}

func TestInvalidArgumentWithoutFieldsIsBadInput(t *testing.T) {
	got := start(t, &fakeEngine{err: status.Error(codes.InvalidArgument, "no")}, nil)
	assert.Equal(t, exitInput, got.code)
	assert.Contains(t, got.err, "the engine cannot answer this brief: no\n")
}

func TestEngineTroubleEndsWithThree(t *testing.T) {
	for code, says := range map[codes.Code]string{
		codes.Unavailable:        "the engine failed (Unavailable): gone\n",
		codes.Internal:           "the engine failed (Internal): gone\n",
		codes.FailedPrecondition: "the engine failed (FailedPrecondition): gone\n",
		codes.DeadlineExceeded:   "the engine took longer than 2 minutes\n",
		codes.Canceled:           "stopped\n",
	} {
		got := start(t, &fakeEngine{err: status.Error(code, "gone")}, nil, "--json")
		assert.Equal(t, exitEngine, got.code, code)
		assert.Empty(t, got.out)
		assert.Equal(t, says, got.err)
	}
}

func TestAnEngineThatDoesNotStartEndsWithThree(t *testing.T) {
	for name, change := range map[string]func(*env){
		"none inside": func(e *env) { e.Embed = nil },
		"broken": func(e *env) {
			e.Embed = func(context.Context) (*grpc.ClientConn, func() error, error) { return nil, nil, os.ErrPermission }
		},
	} {
		got := start(t, &fakeEngine{}, change, "--json")
		assert.Equal(t, exitEngine, got.code, name)
		assert.NotEmpty(t, got.err, name)
	}
	got := start(t, &fakeEngine{}, nil, "--engine", "127.0.0.1:1", "--json")
	assert.Equal(t, exitEngine, got.code)
	assert.Contains(t, got.err, "no engine answers at 127.0.0.1:1")
}

func TestAnEngineThatStopsBadlyTakesNothingFromTheAnswer(t *testing.T) {
	f := answering(t, "works.json")
	got := start(t, f, func(e *env) {
		e.Embed = func(ctx context.Context) (*grpc.ClientConn, func() error, error) {
			conn, stop, err := f.embed(ctx)
			return conn, func() error { _ = stop(); return os.ErrDeadlineExceeded }, err
		}
	}, "--json")
	assert.Equal(t, exitFeasible, got.code)
	assert.NotEmpty(t, got.out)
	assert.Contains(t, got.err, "the engine did not stop cleanly")
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestAnAnswerThatCannotBePrintedIsTold(t *testing.T) {
	got := start(t, answering(t, "works.json"), func(e *env) { e.Out = brokenPipe{} })
	assert.Equal(t, exitEngine, got.code)
	assert.Contains(t, got.err, "the answer cannot be printed")

	got = start(t, answering(t, "works.json"), func(e *env) { e.In = iotest.ErrReader(os.ErrClosed) }, "-")
	assert.Equal(t, exitInput, got.code)
	assert.Contains(t, got.err, "the brief cannot be read")
}
