//go:build unix

package engine_test

import (
	"log/slog"
	"os"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/host/misbehave"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// liveShop is an engine with the demo catalogue and one that answers live, in a mode that may be changed.
type liveShop struct {
	dir        string
	catalogues pb.CatalogueServiceClient
	health     healthpb.HealthClient
	log        *logBook
	finish     func() int64
}

func newLiveShop(t *testing.T, mode string) *liveShop {
	t.Helper()
	shop, err := catalogue.CSV("shop", "../../testdata/catalogues/demo")
	require.NoError(t, err)
	s := &liveShop{dir: t.TempDir(), log: &logBook{}}
	misbehave.Set(s.dir, mode)
	till := catalogue.Source{Plugin: wrongPlugin("till", misbehave.Switch, s.dir), LiveTimeout: time.Second}
	pace := catalogue.UsualPace()
	pace.FirstWait, pace.Beat, pace.BeatLimit = 50*time.Millisecond, 500*time.Millisecond, 2*time.Second
	_, conn := serve(t, engine.Config{
		Logger: slog.New(slog.NewJSONHandler(s.log, nil)), Catalogues: []catalogue.Source{shop, till}, Pace: &pace,
	})
	s.catalogues, s.health = pb.NewCatalogueServiceClient(conn), healthpb.NewHealthClient(conn)
	s.finish = load(t, conn)
	t.Cleanup(func() { assert.Positive(t, s.finish()) })
	return s
}

func (s *liveShop) stock(t *testing.T, number string) *pb.StockAnswer {
	t.Helper()
	resp, err := s.catalogues.CheckStock(t.Context(), &pb.CheckStockRequest{Items: []*pb.StockQuestion{{Catalogue: "till", ItemNumber: number}}})
	require.NoError(t, err)
	require.Len(t, resp.GetItems(), 1)
	return resp.GetItems()[0]
}

func (s *liveShop) live(t *testing.T) *pb.LivePlugin {
	t.Helper()
	resp, err := s.catalogues.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	require.Len(t, resp.GetCatalogues(), 2)
	return resp.GetCatalogues()[1].GetLive()
}

func (s *liveShop) comesUp(t *testing.T) {
	t.Helper()
	require.Eventually(t, func() bool {
		return s.live(t).GetState() == pb.LiveState_LIVE_STATE_UP && isServing(t, s.health, "till")
	}, patience, 20*time.Millisecond, "started again by itself")
}

func TestLiveQuestionsAreAnsweredByThePlugin(t *testing.T) {
	t.Parallel()
	s := newLiveShop(t, "live")
	assert.Equal(t, pb.LiveState_LIVE_STATE_UP, s.live(t).GetState())
	assert.True(t, s.live(t).GetAnswersStock())
	assert.Len(t, misbehave.Living(s.dir), 1)

	stock := s.stock(t, "P-00001")
	assert.EqualValues(t, misbehave.LiveOnHand, stock.GetOnHand())
	assert.Equal(t, pb.StockState_STOCK_STATE_IN_STOCK, stock.GetState())
	assert.Equal(t, "2027-03-01", stock.GetMoreOnDate())
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_LIVE, stock.GetOrigin().GetKind())
	assert.Less(t, stock.GetOrigin().GetAgeS(), 60.0)

	unheard := s.stock(t, "P-00003") // in the catalogue, and not in the merchant's own system
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_CATALOGUE, unheard.GetOrigin().GetKind())
	assert.Contains(t, unheard.GetOrigin().GetFault(), "does not know the item")
	assert.Equal(t, pb.StockState_STOCK_STATE_UNKNOWN, unheard.GetState())

	// Of a catalogue without live answers the catalogue itself says all there is to say.
	four := 4.0
	prices, err := s.catalogues.QuotePrices(t.Context(), &pb.QuotePricesRequest{Items: []*pb.PriceQuestion{
		{Catalogue: "till", ItemNumber: "P-00001", Quantity: &four}, {Catalogue: "shop", ItemNumber: "HO-4010", Quantity: &four}, {ItemNumber: "P-00001"},
	}})
	require.NoError(t, err)
	require.Len(t, prices.GetItems(), 3)
	live, read := prices.GetItems()[0], prices.GetItems()[1]
	assert.Equal(t, misbehave.LivePrice, live.GetUnitPrice())
	assert.Equal(t, 4*misbehave.LivePrice, live.GetPrice())
	assert.Equal(t, "EUR", live.GetCurrency())
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_LIVE, live.GetOrigin().GetKind())
	assert.Equal(t, 1.65, read.GetUnitPrice(), "of a metre, in hoses.csv")
	assert.InDelta(t, 6.60, read.GetPrice(), 1e-9)
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_CATALOGUE, read.GetOrigin().GetKind())
	assert.Empty(t, read.GetOrigin().GetFault())
	assert.Equal(t, misbehave.LivePrice, prices.GetItems()[2].GetPrice())

	_, err = s.catalogues.QuotePrices(t.Context(), &pb.QuotePricesRequest{
		CustomerNumber: misbehave.NoCustomer, Items: []*pb.PriceQuestion{{ItemNumber: "P-00001"}},
	})
	assert.Equal(t, []string{"customer_number"}, fields(t, err))
	_, err = s.catalogues.CheckStock(t.Context(), &pb.CheckStockRequest{Items: []*pb.StockQuestion{
		{ItemNumber: "P-00001"}, {ItemNumber: "none"}, {Catalogue: "none", ItemNumber: "P-00001"},
	}})
	assert.Equal(t, []string{"items[1].item_number", "items[2].catalogue"}, fields(t, err))
}

// A live plugin that is killed costs an answer its freshness and no more, and is there again by itself.
func TestAKilledLivePluginIsStartedAgain(t *testing.T) {
	t.Parallel()
	s := newLiveShop(t, "live")
	first := misbehave.Living(s.dir)
	require.Len(t, first, 1)
	misbehave.Set(s.dir, "exit-at-once") // so that it stays down until it has been seen down
	require.NoError(t, syscall.Kill(first[0], syscall.SIGKILL))
	require.Eventually(t, func() bool { return s.live(t).GetState() == pb.LiveState_LIVE_STATE_DOWN }, patience, 5*time.Millisecond)
	assert.False(t, isServing(t, s.health, "till"))
	assert.True(t, isServing(t, s.health, "shop"))
	assert.Contains(t, s.live(t).GetFault(), "signal: killed")
	answer := s.stock(t, "P-00001")
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_CATALOGUE, answer.GetOrigin().GetKind())
	assert.Contains(t, answer.GetOrigin().GetFault(), "down")
	misbehave.Set(s.dir, "live")
	s.comesUp(t)
	require.Eventually(t, func() bool { return s.stock(t, "P-00001").GetOrigin().GetKind() == pb.AnswerKind_ANSWER_KIND_LIVE }, patience, 20*time.Millisecond)
	assert.Len(t, misbehave.Living(s.dir), 1)
	lines := s.log.errors("live answers are down", "till")
	require.Len(t, lines, 1)
	assert.Contains(t, lines[0], "signal: killed")
}

// Whatever a plugin does when it is asked, the caller has an answer within the limit and is told whose it is.
func TestALivePluginThatGoesWrongWhenAsked(t *testing.T) {
	for mode, says := range map[string]string{
		"live-hangs": "did not answer within 1s", "live-exits": "down", "live-panics": "answered with an error", "live-stops": "did not answer within 1s",
		"live-lies": "cannot be used",
	} {
		t.Run(mode, func(t *testing.T) {
			t.Parallel()
			s := newLiveShop(t, mode)
			answer := s.stock(t, "P-00001")
			assert.Equal(t, pb.AnswerKind_ANSWER_KIND_CATALOGUE, answer.GetOrigin().GetKind())
			assert.Contains(t, answer.GetOrigin().GetFault(), says)
			prices, err := s.catalogues.QuotePrices(t.Context(), &pb.QuotePricesRequest{Items: []*pb.PriceQuestion{{ItemNumber: "P-00001"}}})
			require.NoError(t, err)
			assert.Equal(t, 10.0, prices.GetItems()[0].GetPrice(), "as the catalogue says")
			assert.Equal(t, pb.AnswerKind_ANSWER_KIND_CATALOGUE, prices.GetItems()[0].GetOrigin().GetKind())
		})
	}
}

// A plugin whose process stands still answers no heartbeat: it is ended and another started.
func TestALivePluginThatStandsStillIsReplaced(t *testing.T) {
	t.Parallel()
	s := newLiveShop(t, "live")
	first := misbehave.Living(s.dir)
	require.Len(t, first, 1)
	require.NoError(t, syscall.Kill(first[0], syscall.SIGSTOP))
	require.Eventually(t, func() bool { return len(s.log.errors("live answers are down", "till")) == 1 }, patience, 50*time.Millisecond)
	assert.Contains(t, s.log.errors("live answers are down", "till")[0], "missed 2 heartbeats")
	s.comesUp(t)
	require.Eventually(t, func() bool { return !misbehave.Alive(first[0]) }, patience, 20*time.Millisecond)
	assert.Len(t, misbehave.Living(s.dir), 1)
}

// A reload puts a fresh plugin in the place of the one that runs; one that cannot be read leaves it running.
func TestReloadReplacesALivePlugin(t *testing.T) {
	t.Parallel()
	s := newLiveShop(t, "live")
	first := misbehave.Living(s.dir)
	misbehave.Set(s.dir, "bad-description")
	resp, err := s.catalogues.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{Catalogues: []string{"till"}})
	require.NoError(t, err)
	assert.NotEmpty(t, resp.GetCatalogues()[0].GetFault())
	assert.Equal(t, first, misbehave.Living(s.dir))
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_LIVE, s.stock(t, "P-00001").GetOrigin().GetKind())
	misbehave.Set(s.dir, "live")
	_, err = s.catalogues.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{})
	require.NoError(t, err)
	require.Eventually(t, func() bool { return len(misbehave.Living(s.dir)) == 1 }, patience, 5*time.Millisecond)
	assert.NotEqual(t, first, misbehave.Living(s.dir))
	assert.Equal(t, pb.AnswerKind_ANSWER_KIND_LIVE, s.stock(t, "P-00001").GetOrigin().GetKind())
}

// One that dies over and over is given up, which is said; a reload starts afresh.
func TestALivePluginThatKeepsDyingIsGivenUp(t *testing.T) {
	t.Parallel()
	s := newLiveShop(t, "live-dies")
	status := func() *pb.CatalogueStatus {
		resp, err := s.catalogues.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
		require.NoError(t, err)
		return resp.GetCatalogues()[1]
	}
	require.Eventually(t, func() bool { return status().GetGivenUp() }, 2*patience, 50*time.Millisecond)
	assert.Nil(t, status().GetNextReadingTime())
	assert.EqualValues(t, 6, status().GetReadingCount(), "the first and five more")
	assert.Empty(t, misbehave.Living(s.dir))
	misbehave.Set(s.dir, "live")
	_, err := s.catalogues.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{})
	require.NoError(t, err)
	s.comesUp(t)
	assert.False(t, status().GetGivenUp())
}

// kill -9 of the engine leaves neither the plugin that runs nor the one that is being read.
func TestAKilledEngineLeavesNoPlugin(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("elsewhere it is up to the plugin to notice, as the SDK does")
	}
	t.Parallel()
	dir := t.TempDir()
	temp, err := os.MkdirTemp("", "pond") // a folder of the test's own name would be too long for a socket
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, os.RemoveAll(temp)) })
	e, err := os.StartProcess(misbehave.Self(), []string{misbehave.Self(), asEngine, dir}, &os.ProcAttr{Env: append(os.Environ(), "TMPDIR="+temp)})
	require.NoError(t, err)
	require.Eventually(t, func() bool { return len(misbehave.Living(dir)) == 2 }, patience, 5*time.Millisecond)
	require.NoError(t, e.Kill())
	_, err = e.Wait()
	require.NoError(t, err)
	assert.Eventually(t, func() bool { return len(misbehave.Living(dir)) == 0 }, patience, 5*time.Millisecond)
}

// Only who is known may have the catalogues read again, once callers are known at all: see intercept. Until then it is those on
// the same machine, as these tests are.
func TestReloadNamesTheCataloguesThatAreNotThere(t *testing.T) {
	_, conn := start(t)
	_, err := pb.NewCatalogueServiceClient(conn).ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{Catalogues: []string{"demo", "none", "nor this"}})
	assert.Equal(t, []string{"catalogues[1]", "catalogues[2]"}, fields(t, err))
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
}
