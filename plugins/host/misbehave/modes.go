//go:build unix

package misbehave

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// modes are the ways to misbehave, and a few ways to behave.
var modes = map[string]func(dir string){
	"good":         func(string) { sdk.Serve(&shelf{items: pumps(3)}) },
	"many":         func(string) { sdk.Serve(&shelf{items: pumps(1200)}) },
	"ten-thousand": func(string) { sdk.Serve(&shelf{items: longCurves(10_000)}) },
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
		sdk.Serve(&shelf{describe: standStill})
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
	"million":      func(string) { sdk.Serve(&shelf{items: pumps(1_000_000)}) },
	"floods-items": func(string) { sdk.Serve(&shelf{items: endless(pump("P"))}) },
	"huge-message": func(string) {
		sdk.Serve(&shelf{items: one(&equipmentv1.Item{Description: strings.Repeat("x", contract.MaxMessageBytes+1)})})
	},
	"bad-items":       func(string) { sdk.Serve(&shelf{items: badItems}) },
	"rejects":         func(string) { sdk.Serve(Refuser{}) },
	"bad-description": func(string) { sdk.Serve(&shelf{currency: "pounds"}) },
	"invalid-utf8":    func(string) { sdk.Serve(&shelf{items: one(rawItem())}) },
	"prints-later":    func(string) { sdk.Serve(&shelf{items: pumps(3), describe: printALot}) },
	"slow-to-stop":    func(string) { sdk.Serve(&shelf{items: pumps(3)}); time.Sleep(time.Hour) },
	"leaves-child":    func(dir string) { leaveChild(dir, &syscall.SysProcAttr{}); sdk.Serve(&shelf{items: pumps(3)}) },
	"leaves-session": func(dir string) {
		leaveChild(dir, &syscall.SysProcAttr{Setsid: true})
		sdk.Serve(&shelf{items: pumps(3)})
	},
	"exits-with-child": func(dir string) { leaveChild(dir, &syscall.SysProcAttr{}) },
	"grows":            func(string) { sdk.Serve(&shelf{describe: grow}) },
	"dies-in-goroutine": func(string) {
		sdk.Serve(&shelf{items: pumps(300), then: func() { go panic("index out of range"); time.Sleep(time.Hour) }})
	},
	"crashes-on-second": func(dir string) { crashOnSecond(dir) },
	"shows-env":         func(string) { sdk.Serve(&shelf{title: strings.Join(names(os.Environ()), ",")}) },
	"shows-files":       func(string) { sdk.Serve(&shelf{title: inherited()}) },
	"host":              runHost,

	"live":        live(nil),
	"live-hangs":  live(func() { time.Sleep(time.Hour) }),
	"live-exits":  live(func() { os.Exit(5) }),
	"live-panics": live(func() { panic("the till is open") }),
	"live-stops":  live(standStill),
	"live-lies":   liveLies,
	"live-dies":   liveDies,
}

func serveVersion2(string) {
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig:  contract.Handshake(),
		VersionedPlugins: map[int]plugin.PluginSet{2: {"catalogue": &contract.Plugin{Catalogue: &shelf{}}}},
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

// grow takes memory and uses it until there is no more.
func grow() {
	var kept [][]byte
	for {
		piece := make([]byte, 32<<20)
		for i := range piece {
			piece[i] = 1
		}
		kept = append(kept, piece)
		runtime.KeepAlive(kept)
	}
}

func leaveChild(dir string, how *syscall.SysProcAttr) {
	child := exec.Command("sleep", "1000")
	child.SysProcAttr = how
	child.Stdout, child.Stderr = os.Stdout, os.Stderr // it keeps the pipes open, which go-plugin alone would wait for
	if err := child.Start(); err != nil {
		panic(err)
	}
	notePID(dir, child.Process.Pid)
}

func crashOnSecond(dir string) {
	runs, _ := filepath.Glob(filepath.Join(dir, "*.pid"))
	s := &shelf{items: pumps(3)}
	if len(runs) == 2 {
		s.describe = func() { os.Exit(4) }
	}
	sdk.Serve(s)
}

// inherited names the files that the process was given when it was started, other than its own three streams.
func inherited() string {
	var found []string
	entries, _ := os.ReadDir("/proc/self/fd")
	for _, e := range entries {
		target, err := os.Readlink("/proc/self/fd/" + e.Name())
		own := strings.HasPrefix(target, "anon_inode:") || strings.HasPrefix(target, "/proc/") || strings.HasPrefix(target, "/sys/") // the runtime's, and the folder being read
		if n, _ := strconv.Atoi(e.Name()); n > 2 && err == nil && !own {
			found = append(found, filepath.Base(target)) // a title is short
		}
	}
	return "files: " + strings.Join(found, ",")
}

func names(env []string) []string {
	for i := range env {
		env[i], _, _ = strings.Cut(env[i], "=")
	}
	return env
}

// runHost is a host that waits for a plugin until it is killed. The plugin does not watch its parent, as one in another language
// may not.
func runHost(dir string) {
	h, err := host.New(host.Config{TempDir: dir})
	if err != nil {
		panic(err)
	}
	p := host.Plugin{Name: "silent", Path: Self(), Args: Args("silent", dir), StartTimeout: time.Hour}
	_, err = h.Read(context.Background(), p)
	panic(err)
}
