package host_test

import (
	"context"
	"fmt"
	"iter"
	"log/slog"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// The test binary is every plugin of these tests: started as "binary misbehave MODE DIR" it does what the mode says, having
// noted its process ID in DIR.
const misbehave = "misbehave"

func TestMain(m *testing.M) {
	if len(os.Args) == 4 && os.Args[1] == misbehave {
		dir := os.Args[3]
		notePid(dir, os.Getpid())
		modes[os.Args[2]](dir)
		return
	}
	os.Exit(m.Run())
}

func notePid(dir string, pid int) {
	name := filepath.Join(dir, strconv.Itoa(pid)+".pid")
	if err := os.WriteFile(name, nil, 0o600); err != nil {
		panic(err)
	}
}

// modes are the ways to misbehave, and a few ways to behave.
var modes = map[string]func(dir string){
	"good": func(string) { sdk.Serve(&shelf{items: pumps(3)}) },
	"many": func(string) { sdk.Serve(&shelf{items: pumps(1200)}) },
	"exit-at-once": func(string) {
		fmt.Fprintln(os.Stderr, "opening stock.db: no such file")
		os.Exit(3)
	},
	"silent":       func(string) { time.Sleep(time.Hour) },
	"prints-first": func(string) { fmt.Println("Loading the catalogue ..."); sdk.Serve(&shelf{}) },
	"endless-line": func(string) { fmt.Print(strings.Repeat("x", 1<<20)); time.Sleep(time.Hour) },
	"version-2":    serveVersion2,
	"wrong-core":   func(string) { fmt.Println("9|1|unix|/nowhere|grpc"); time.Sleep(time.Hour) },
	"dead-socket":  func(string) { fmt.Println("1|1|unix|/nowhere/socket|grpc"); time.Sleep(time.Hour) },
	"stands-still": func(string) {
		sdk.Serve(&shelf{describe: func() { _ = syscall.Kill(os.Getpid(), syscall.SIGSTOP); time.Sleep(time.Hour) }})
	},
	"panics":           func(string) { sdk.Serve(&shelf{describe: func() { panic("no stock today") }}) },
	"hangs-describing": func(string) { sdk.Serve(&shelf{describe: func() { time.Sleep(time.Hour) }}) },
	"hangs-streaming":  func(string) { sdk.Serve(&shelf{items: pumps(300), then: func() { time.Sleep(time.Hour) }}) },
	"exits-streaming": func(string) {
		sdk.Serve(&shelf{items: pumps(300), then: func() {
			fmt.Fprintln(os.NewFile(2, "stderr"), "fatal: the disk is full")
			os.Exit(3)
		}})
	},
	"floods-items": func(string) { sdk.Serve(&shelf{items: endless(pump("P"))}) },
	"huge-message": func(string) {
		sdk.Serve(&shelf{items: one(&equipmentv1.Item{Description: strings.Repeat("x", contract.MaxMessageBytes+1)})})
	},
	"bad-items":         func(string) { sdk.Serve(&shelf{items: badItems}) },
	"bad-description":   func(string) { sdk.Serve(&shelf{currency: "pounds"}) },
	"invalid-utf8":      func(string) { sdk.Serve(&shelf{items: one(rawItem())}) },
	"prints-later":      func(string) { sdk.Serve(&shelf{items: pumps(3), describe: printALot}) },
	"slow-to-stop":      func(string) { sdk.Serve(&shelf{items: pumps(3)}); time.Sleep(time.Hour) },
	"leaves-child":      func(dir string) { leaveChild(dir); sdk.Serve(&shelf{items: pumps(3)}) },
	"crashes-on-second": func(dir string) { crashOnSecond(dir) },
	"shows-env":         func(string) { sdk.Serve(&shelf{title: strings.Join(names(os.Environ()), ",")}) },
	"host":              runHost,
}

// shelf is a catalogue with a place to go wrong in.
type shelf struct {
	title, currency string
	items           iter.Seq[*equipmentv1.Item]
	describe, then  func()
}

func (s *shelf) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	if s.describe != nil {
		s.describe()
	}
	d := &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "EUR"}
	if s.title != "" {
		d.Title = s.title[:min(len(s.title), 120)]
	}
	if s.currency != "" {
		d.Currency = s.currency
	}
	return d, nil
}

func (s *shelf) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		if s.items != nil {
			for item := range s.items {
				if !yield(item, nil) {
					return
				}
			}
		}
		if s.then != nil {
			s.then()
		}
	}
}

func pump(number string) *equipmentv1.Item {
	return &equipmentv1.Item{
		ItemNumber: number, Description: "pump", Price: proto.Float64(10),
		Kind: &equipmentv1.Item_Pump{Pump: &equipmentv1.Pump{
			PowerW: proto.Float64(60),
			Curve:  []*equipmentv1.CurvePoint{{FlowLPerH: 0, HeadM: 3}, {FlowLPerH: 5000, HeadM: 1}},
		}},
	}
}

func pumps(n int) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) {
		for i := range n {
			if !yield(pump(fmt.Sprintf("P-%05d", n-i))) {
				return
			}
		}
	}
}

func one(item *equipmentv1.Item) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) { yield(item) }
}

func endless(item *equipmentv1.Item) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) {
		for yield(item) {
		}
	}
}

// badItems are one good pump among eight that are not.
func badItems(yield func(*equipmentv1.Item) bool) {
	spoilt := func(number string, spoil func(*equipmentv1.Item)) *equipmentv1.Item {
		item := pump(number)
		spoil(item)
		return item
	}
	items := []*equipmentv1.Item{
		spoilt("NAN", func(i *equipmentv1.Item) { i.GetPump().Curve[1].HeadM = math.NaN() }),
		spoilt("INF", func(i *equipmentv1.Item) { i.Price = proto.Float64(math.Inf(1)) }),
		spoilt("NEGATIVE", func(i *equipmentv1.Item) { i.GetPump().Curve[1].FlowLPerH = -1 }),
		spoilt("HUGE", func(i *equipmentv1.Item) { i.Description = strings.Repeat("long ", 10_000) }),
		pump("TWICE"), pump("GOOD"), pump("TWICE"),
		{},
		pump("LINE\nBREAK"),
	}
	for _, item := range items {
		if !yield(item) {
			return
		}
	}
}

// rawItem is an item whose number is not UTF-8, which protobuf refuses to write: it is hidden in the unknown fields, whose
// bytes are sent as they are.
func rawItem() *equipmentv1.Item {
	item := &equipmentv1.Item{}
	raw := protowire.AppendTag(nil, 1, protowire.BytesType)
	item.ProtoReflect().SetUnknown(protowire.AppendBytes(raw, []byte("P-\xff")))
	return item
}

func serveVersion2(string) {
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig:  contract.Handshake(),
		VersionedPlugins: map[int]plugin.PluginSet{2: {"catalogue": &contract.Plugin{Catalogue: &shelf{}, Logger: slog.Default()}}},
		GRPCServer:       func(o []grpc.ServerOption) *grpc.Server { return grpc.NewServer(o...) },
	})
}

// printALot writes where a plugin should not: more lines than are kept, one of them very long, past go-plugin and through it.
func printALot() {
	long := strings.Repeat("y", 1<<20)
	for _, out := range []*os.File{os.NewFile(1, "stdout"), os.NewFile(2, "stderr")} {
		fmt.Fprintln(out, long)
		for i := range 1500 {
			fmt.Fprintln(out, "line", i, "\x1b[31m in red")
		}
	}
	fmt.Println("printed after the handshake")
}

func leaveChild(dir string) {
	child := exec.Command("sleep", "1000")
	child.Stdout, child.Stderr = os.Stdout, os.Stderr // it keeps the pipes open, which go-plugin alone would wait for
	if err := child.Start(); err != nil {
		panic(err)
	}
	notePid(dir, child.Process.Pid)
}

func crashOnSecond(dir string) {
	runs, _ := filepath.Glob(filepath.Join(dir, "*.pid"))
	s := &shelf{items: pumps(3)}
	if len(runs) == 2 {
		s.describe = func() { os.Exit(4) }
	}
	sdk.Serve(s)
}

func names(env []string) []string {
	for i := range env {
		env[i], _, _ = strings.Cut(env[i], "=")
	}
	return env
}

// runHost is a host that reads a plugin which hangs, until it is killed.
func runHost(dir string) {
	h, err := host.New(host.Config{TempDir: dir})
	if err != nil {
		panic(err)
	}
	_, err = h.Read(context.Background(), host.Plugin{Name: "hanging", Path: self(), Args: []string{misbehave, "hangs-streaming", dir}})
	panic(err)
}

func self() string {
	path, err := os.Executable()
	if err != nil {
		panic(err)
	}
	return path
}

// alive says whether a process is there and does more than wait to be reaped by whoever has inherited it.
func alive(pid int) bool {
	if runtime.GOOS == "linux" {
		stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
		_, state, _ := strings.Cut(string(stat), ") ")
		return err == nil && !strings.HasPrefix(state, "Z")
	}
	return syscall.Kill(pid, 0) == nil
}
