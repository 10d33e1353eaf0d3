package engine_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// named is an item by its number.
func named(number string) *pb.ItemChoice {
	return &pb.ItemChoice{Choice: &pb.ItemChoice_Reference{Reference: &pb.ItemReference{ItemNumber: number}}}
}

// setOf names the set of a kit.
func setOf(k *pb.Kit) *pb.ChosenSet {
	item := func(i *pb.CataloguedItem) *pb.ItemChoice {
		if i == nil {
			return nil
		}
		return named(i.GetItem().GetItemNumber())
	}
	set := &pb.ChosenSet{Pump: item(k.GetPump()), Hose: item(k.GetHose()), Filter: item(k.GetFilter()), LampUnit: item(k.GetLampUnit())}
	switch second := k.GetSecondPump(); second.GetArrangement() {
	case pb.TwoPumps_TWO_PUMPS_SIDE_BY_SIDE:
		set.SecondPump = &pb.ChosenSecondPump{Arrangement: &pb.ChosenSecondPump_SideBySide{SideBySide: true}}
	case pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL:
		set.SecondPump = &pb.ChosenSecondPump{Arrangement: &pb.ChosenSecondPump_Fall{
			Fall: &pb.FallPump{Pump: item(second.GetPump()), Hose: item(second.GetHose())},
		}}
	}
	return set
}

func check(t *testing.T, client pb.KitServiceClient, b *pb.Brief, set *pb.ChosenSet) *pb.CheckKitResponse {
	t.Helper()
	resp, err := client.CheckKit(t.Context(), &pb.CheckKitRequest{Brief: b, Set: set})
	require.NoError(t, err)
	return resp
}

// Law: what is suggested is what a check of the same set finds, to the last bit.
func TestWhatIsSuggestedPassesTheCheck(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	for _, k := range suggest(t, client, func(*pb.Brief) {}).GetKits() {
		assert.True(t, k.GetWorks())
		got := check(t, client, brief(), setOf(k))
		assert.True(t, proto.Equal(k, got.GetKit()))
		assert.Nil(t, got.GetSmallestChange())
		for _, v := range got.GetVerdicts() {
			assert.True(t, v.GetWorks())
			assert.Empty(t, v.GetStops())
		}
		assert.Len(t, got.GetVerdicts(), 3, "in any state, clean, due for cleaning")
	}
}

// The weakest pump of the demo range cannot lift 0.6 m through a pressure filter that is due: another pump mends it, and the set
// mended so passes the check.
func TestASetThatFallsShortIsMended(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	set := setOf(suggest(t, client, func(*pb.Brief) {}).GetKits()[0])
	set.Pump = named("PU-1010")
	got := check(t, client, brief(), set)
	assert.False(t, got.GetKit().GetWorks())
	failing := slices.IndexFunc(got.GetVerdicts(), func(v *pb.StateVerdict) bool { return !v.GetWorks() })
	require.GreaterOrEqual(t, failing, 0)
	assert.NotEqual(t, pb.RunningState_RUNNING_STATE_UNSPECIFIED, got.GetVerdicts()[failing].GetState(), "it is the flow that fails")

	mend := got.GetSmallestChange()
	require.NotNil(t, mend)
	require.Len(t, mend.GetChanges(), 1)
	assert.Equal(t, eq.ItemKind_ITEM_KIND_PUMP, mend.GetChanges()[0].GetKind())
	assert.Equal(t, "PU-1010", mend.GetChanges()[0].GetFrom().GetItem().GetItemNumber())
	assert.Equal(t, mend.GetChanges()[0].GetTo().GetItem().GetPrice(), mend.GetPrice())
	assert.Contains(t, mend.GetSentence(), mend.GetChanges()[0].GetTo().GetItem().GetItemNumber())
	mended := check(t, client, brief(), setOf(mend.GetKit()))
	assert.True(t, mended.GetKit().GetWorks())
	assert.True(t, proto.Equal(mend.GetKit(), mended.GetKit()))

	// No cheaper pump would have done, which every pump of the range is asked for by itself.
	items, err := pb.NewCatalogueServiceClient(conn).ListItems(t.Context(), &pb.ListItemsRequest{Kind: eq.ItemKind_ITEM_KIND_PUMP})
	require.NoError(t, err)
	for _, item := range items.GetItems() {
		if item.GetItem().GetPrice() < mend.GetPrice() {
			set.Pump = named(item.GetItem().GetItemNumber())
			assert.False(t, check(t, client, brief(), set).GetKit().GetWorks(), item.GetItem().GetItemNumber())
		}
	}
}

func TestAMissingFilterIsAdded(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	set := setOf(suggest(t, client, func(*pb.Brief) {}).GetKits()[0])
	set.Filter = nil
	got := check(t, client, brief(), set)
	assert.NotNil(t, finding(got.GetKit().GetFindings(), "FILTER_MISSING"))
	require.Len(t, got.GetSmallestChange().GetChanges(), 1)
	assert.Nil(t, got.GetSmallestChange().GetChanges()[0].GetFrom())
	assert.Equal(t, eq.ItemKind_ITEM_KIND_FILTER, got.GetSmallestChange().GetChanges()[0].GetKind())
}

// Nothing works for a budget of one pound, whatever is changed, and that is said.
func TestWhatNothingMendsIsSaid(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	set := setOf(suggest(t, client, func(*pb.Brief) {}).GetKits()[0])
	b := brief()
	b.Wishes = &pb.Wishes{Budget: number(1.0)}
	got := check(t, client, b, set)
	assert.Nil(t, got.GetSmallestChange())
	assert.NotNil(t, finding(got.GetFindings(), "NOTHING_MENDS"))
	assert.False(t, got.GetVerdicts()[0].GetWorks(), "the budget depends on no state")
	assert.Equal(t, "OVER_BUDGET", got.GetVerdicts()[0].GetStops()[0].GetCode())
}

// A pump at home, described as on its plate, costs nothing; the same pump bought costs its price.
func TestWhatIsAtHomeCostsNothing(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	first := suggest(t, client, func(*pb.Brief) {}).GetKits()[0]
	atHome := proto.CloneOf(first.GetPump().GetItem())
	atHome.ItemNumber, atHome.Price = "at home", nil
	resp := suggest(t, client, func(b *pb.Brief) {
		b.Owned = &pb.Owned{Pump: &pb.ItemChoice{Choice: &pb.ItemChoice_Item{Item: atHome}}}
	})
	require.NotEmpty(t, resp.GetKits())
	for _, k := range resp.GetKits() {
		assert.Equal(t, "at home", k.GetPump().GetItem().GetItemNumber())
		assert.Equal(t, []eq.ItemKind{eq.ItemKind_ITEM_KIND_PUMP}, k.GetOwned())
	}
	bought := first.GetCost().GetPrice() - first.GetPump().GetItem().GetPrice()
	assert.LessOrEqual(t, resp.GetKits()[0].GetCost().GetTotal(), first.GetCost().GetTotal()-first.GetPump().GetItem().GetPrice()+1e-9)

	b := brief()
	b.Owned = &pb.Owned{Pump: &pb.ItemChoice{Choice: &pb.ItemChoice_Item{Item: atHome}}}
	set := setOf(first)
	set.Pump = nil
	got := check(t, client, b, set)
	assert.True(t, got.GetKit().GetWorks())
	assert.InDelta(t, bought, got.GetKit().GetCost().GetPrice(), 1e-9)
	assert.Equal(t, first.GetStates()[1].GetDuty().GetFlowLPerH().GetExpected(), got.GetKit().GetStates()[1].GetDuty().GetFlowLPerH().GetExpected())
}

// Law: every substitute passes the check, is another item, and the nearest comes first by what is told of it.
func TestSubstitutesPassTheCheck(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	set := setOf(suggest(t, client, func(*pb.Brief) {}).GetKits()[0])
	for _, out := range []eq.ItemKind{eq.ItemKind_ITEM_KIND_PUMP, eq.ItemKind_ITEM_KIND_HOSE, eq.ItemKind_ITEM_KIND_FILTER, eq.ItemKind_ITEM_KIND_LAMP_UNIT} {
		resp, err := client.SuggestSubstitutes(t.Context(), &pb.SuggestSubstitutesRequest{Brief: brief(), Set: set, Out: out, MaxSubstitutes: 5})
		require.NoError(t, err)
		if len(resp.GetSubstitutes()) == 0 {
			assert.NotNil(t, finding(resp.GetFindings(), "NO_SUBSTITUTE"))
			assert.NotEmpty(t, resp.GetLosers())
			continue
		}
		for _, s := range resp.GetSubstitutes() {
			got := check(t, client, brief(), setOf(s.GetKit()))
			assert.True(t, got.GetKit().GetWorks())
			assert.True(t, proto.Equal(s.GetKit(), got.GetKit()))
			assert.NotEmpty(t, s.GetDifferences())
			for _, d := range s.GetDifferences() {
				assert.NotEqual(t, d.GetBefore().GetValue(), d.GetAfter().GetValue(), d.GetFigure())
			}
		}
	}
}

func TestLosersSayWhatStopsThem(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief(), MaxLosers: 6, Pictures: true})
	require.NoError(t, err)
	first := resp.GetKits()[0]
	require.Len(t, resp.GetLosers(), 6)
	for _, l := range resp.GetLosers() {
		assert.False(t, l.GetKit().GetWorks())
		assert.Negative(t, l.GetKit().GetHeadroomPercent())
		assert.Equal(t, pb.Severity_SEVERITY_STOP, l.GetStop().GetSeverity())
		assert.NotEmpty(t, l.GetStop().GetSentence())
		same := map[eq.ItemKind]bool{
			eq.ItemKind_ITEM_KIND_PUMP:      proto.Equal(first.GetPump(), l.GetKit().GetPump()),
			eq.ItemKind_ITEM_KIND_HOSE:      proto.Equal(first.GetHose(), l.GetKit().GetHose()),
			eq.ItemKind_ITEM_KIND_FILTER:    proto.Equal(first.GetFilter(), l.GetKit().GetFilter()),
			eq.ItemKind_ITEM_KIND_LAMP_UNIT: proto.Equal(first.GetLampUnit(), l.GetKit().GetLampUnit()),
		}
		for kind, equal := range same {
			assert.Equal(t, kind != l.GetDiffers(), equal, kind)
		}
	}
	holdPicture(t, first)
}

// holdPicture: the duty point of each state lies on the demand of the state and on the curve of the pump, between two of the
// points each is drawn from.
func holdPicture(t *testing.T, k *pb.Kit) {
	t.Helper()
	at := func(points []*pb.HeadPoint, flow float64) (low, high float64) {
		for i := 1; i < len(points); i++ {
			if points[i].GetFlowLPerH() >= flow {
				a, b := points[i-1].GetHeadM(), points[i].GetHeadM()
				return min(a, b), max(a, b)
			}
		}
		return 0, 0
	}
	require.Len(t, k.GetPicture().GetDemands(), len(k.GetStates()))
	for i, d := range k.GetPicture().GetDemands() {
		duty := k.GetStates()[i].GetDuty()
		assert.Equal(t, k.GetStates()[i].GetState(), d.GetState())
		for _, line := range [][]*pb.HeadPoint{d.GetPoints(), k.GetPicture().GetPump()} {
			low, high := at(line, duty.GetFlowLPerH().GetExpected())
			assert.GreaterOrEqual(t, duty.GetHeadM().GetExpected(), low-1e-12)
			assert.LessOrEqual(t, duty.GetHeadM().GetExpected(), high+1e-12)
		}
	}
	assert.Len(t, k.GetPicture().GetMeasured(), len(k.GetPump().GetItem().GetPump().GetCurve()))
}

// Two pumps are proved as one is: side by side with one circuit, apart with two, and either set passes the check.
func TestSetsOfTwoPumps(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	two := func(b *pb.Brief) {
		b.Wishes = &pb.Wishes{TwoPumps: pb.Want_WANT_YES}
		b.Fall.SillWidthCm = 60
	}
	resp, err := client.SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: changed(two), MaxKits: 50, Pictures: true})
	require.NoError(t, err)
	seen := map[pb.TwoPumps]bool{}
	for _, k := range resp.GetKits() {
		second := k.GetSecondPump()
		require.NotNil(t, second)
		seen[second.GetArrangement()] = true
		got, err := client.CheckKit(t.Context(), &pb.CheckKitRequest{Brief: changed(two), Set: setOf(k), Pictures: true})
		require.NoError(t, err)
		assert.True(t, proto.Equal(k, got.GetKit()))
		switch second.GetArrangement() {
		case pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL:
			flow := second.GetStates()[0].GetDuty().GetFlowLPerH()
			assert.GreaterOrEqual(t, flow.GetLow(), 60.0*60, "a thin sheet takes 60 L/h over each centimetre")
			assert.LessOrEqual(t, flow.GetExpected(), 120.0*60)
			assert.Len(t, second.GetStates(), 1, "no filter stands in its way")
			assert.NotNil(t, second.GetPicture())
		case pb.TwoPumps_TWO_PUMPS_SIDE_BY_SIDE:
			assert.True(t, proto.Equal(k.GetPump(), second.GetPump()))
			assert.Nil(t, second.GetHose())
		}
	}
	assert.True(t, seen[pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL], "of %d kits", len(resp.GetKits()))
}

func changed(change func(*pb.Brief)) *pb.Brief {
	b := brief()
	change(b)
	return b
}

// A pump moved to a short hose under water for the winter gives more, is judged then too, and saves nothing but the lamps.
func TestWinterIsAStateOfItsOwn(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	resp := suggest(t, client, func(b *pb.Brief) {
		b.Winter = &pb.WinterRunning{Pump: pb.WinterPump_WINTER_PUMP_RUNS_ON, Days: number(100.0)}
	})
	require.NotEmpty(t, resp.GetKits())
	for _, k := range resp.GetKits() {
		require.Len(t, k.GetStates(), 3)
		assert.Equal(t, pb.RunningState_RUNNING_STATE_WINTER, k.GetStates()[2].GetState())
		assert.Less(t, k.GetStates()[2].GetDuty().GetFlowLPerH().GetExpected(), k.GetStates()[0].GetDuty().GetFlowLPerH().GetExpected(),
			"water at 4 °C is thicker than at 15 °C")
	}
	assert.NotNil(t, finding(resp.GetFindings(), "ASSUMED"), "the water of winter")
	set := setOf(resp.GetKits()[0])
	moved := func(least float64) *pb.CheckKitResponse {
		return check(t, client, changed(func(b *pb.Brief) {
			b.Winter = &pb.WinterRunning{
				Pump: pb.WinterPump_WINTER_PUMP_MOVED, HoseLengthM: number(2.0), OutletHeightM: number(0.5), LeastFlowLPerH: &least,
			}
		}), set)
	}
	enough := moved(300)
	assert.NotNil(t, finding(enough.GetFindings(), "WINTER_HOSE_WITHOUT_BENDS"))
	winter := enough.GetKit().GetStates()[2].GetDuty().GetFlowLPerH()
	assert.Greater(t, winter.GetExpected(), enough.GetKit().GetStates()[0].GetDuty().GetFlowLPerH().GetExpected())
	tooMuch := moved(winter.GetLow() + 1)
	last := tooMuch.GetVerdicts()[len(tooMuch.GetVerdicts())-1]
	assert.Equal(t, pb.RunningState_RUNNING_STATE_WINTER, last.GetState())
	require.NotEmpty(t, last.GetStops())
	assert.Equal(t, "WINTER_FLOW_BELOW_WANTED", last.GetStops()[0].GetCode())

	stopped := check(t, client, changed(func(b *pb.Brief) {
		b.Winter = &pb.WinterRunning{Pump: pb.WinterPump_WINTER_PUMP_STOPPED, Days: number(100.0)}
	}), set)
	all := check(t, client, brief(), set)
	assert.InEpsilon(t, all.GetKit().GetCost().GetEnergyKwhPerYear()*(365.2425-100)/365.2425, stopped.GetKit().GetCost().GetEnergyKwhPerYear(), 1e-12)
	assert.Len(t, stopped.GetVerdicts(), 3, "nothing runs in winter")
}

func TestEveryFaultOfANamedSetIsSaid(t *testing.T) {
	_, conn := start(t)
	client := pb.NewKitServiceClient(conn)
	b := brief()
	b.Owned = &pb.Owned{Hose: named("PU-1010"), LampUnit: named("LA-3010")}
	_, err := client.CheckKit(t.Context(), &pb.CheckKitRequest{Brief: b, Set: &pb.ChosenSet{Filter: named("no such"), LampUnit: named("LA-3020")}})
	require.Equal(t, codes.InvalidArgument, status.Code(err), err)
	var fields []string
	for _, d := range status.Convert(err).Details() {
		if bad, ok := d.(*errdetails.BadRequest); ok {
			for _, v := range bad.GetFieldViolations() {
				fields = append(fields, v.GetField())
			}
		}
	}
	assert.ElementsMatch(t, []string{
		"brief.owned.hose.reference", "set.filter.reference.item_number", "set.lamp_unit", "set.pump", "set.hose",
	}, fields)

	_, err = client.SuggestSubstitutes(t.Context(), &pb.SuggestSubstitutesRequest{
		Brief: brief(), Set: &pb.ChosenSet{Pump: named("PU-1040"), Hose: named("HO-4020")}, Out: eq.ItemKind_ITEM_KIND_FILTER,
	})
	assert.Equal(t, codes.InvalidArgument, status.Code(err), err)
	_, err = client.SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief(), QuickBrief: &pb.QuickBrief{}})
	assert.Equal(t, codes.InvalidArgument, status.Code(err), err)
}

// A brief that wants no lamp unit and a lamp unit that is owned say opposite things.
func TestWhatIsOwnedMustBeWanted(t *testing.T) {
	_, conn := start(t)
	b := brief()
	b.Owned, b.Wishes = &pb.Owned{LampUnit: named("LA-3010")}, &pb.Wishes{LampUnit: pb.Want_WANT_NO}
	_, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: b})
	require.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.Contains(t, err.Error(), "owned.lamp_unit")
}
