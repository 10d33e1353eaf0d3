package main

import (
	"context"
	"fmt"
	"net"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/clients/internal/headless"
	"example.com/pondwright/clients/internal/session"
	"example.com/pondwright/clients/till/web"
	"example.com/pondwright/plugins/builtin"
)

func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	code := m.Run()
	if built.folder != "" {
		_ = os.RemoveAll(built.folder)
	}
	os.Exit(code)
}

// built is the server, made once for all tests.
var built struct {
	once   sync.Once
	folder string
	err    error
}

func serverProgram(t *testing.T) string {
	t.Helper()
	built.once.Do(func() {
		// Not a folder of the test's own: its name is too long for the path of a plugin's socket.
		if built.folder, built.err = os.MkdirTemp("", "till"); built.err != nil {
			return
		}
		out, err := exec.Command("go", "build", "-o", built.folder, "example.com/pondwright/server").CombinedOutput()
		if err != nil {
			built.err = fmt.Errorf("%w: %s", err, out)
		}
	})
	require.NoError(t, built.err)
	return filepath.Join(built.folder, "server")
}

// An engine is a server process that can be stopped and started again on the same port.
type engine struct {
	t       *testing.T
	address string
	args    []string
	cmd     *exec.Cmd
}

func startEngine(t *testing.T, args ...string) *engine {
	t.Helper()
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	e := &engine{t: t, address: free.Addr().String(), args: args}
	require.NoError(t, free.Close())
	e.start()
	t.Cleanup(e.stop)
	return e
}

func (e *engine) start() {
	e.t.Helper()
	e.cmd = exec.Command(serverProgram(e.t), append([]string{"--listen", e.address}, e.args...)...)
	e.cmd.Env = append(os.Environ(), "TMPDIR="+built.folder)
	require.NoError(e.t, e.cmd.Start())
	require.Eventually(e.t, func() bool {
		conn, stop, err := session.Open(context.Background(), e.address, nil)
		if err != nil {
			return false
		}
		_ = conn
		return stop() == nil
	}, 30*time.Second, 50*time.Millisecond, "the engine does not answer")
}

func (e *engine) stop() {
	if e.cmd == nil {
		return
	}
	_ = e.cmd.Process.Signal(os.Interrupt)
	_ = e.cmd.Wait()
	e.cmd = nil
}

// startTill serves the page on the engine and returns its address.
func startTill(t *testing.T, e *engine) string {
	t.Helper()
	conn, stop, err := session.Connect(e.address)
	require.NoError(t, err)
	handler, err := web.New(web.Config{Engine: conn, Energy: "0.28", Today: func() time.Time { return time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC) }})
	require.NoError(t, err)
	server := httptest.NewServer(handler)
	t.Cleanup(func() {
		server.Close()
		require.NoError(t, stop())
	})
	return server.URL
}

// A window is a tab of headless Chromium in which nothing may go wrong unseen.
type window struct {
	context.Context
	t      *testing.T
	mu     sync.Mutex
	faults []string // of the policy, of scripts, and of addresses outside
	bytes  int64
	asked  []string
}

const (
	phoneWidth   = 390
	counterWidth = 1280
)

func openWindow(t *testing.T, width, height int64) *window {
	t.Helper()
	program, err := exec.LookPath("chromium")
	if err != nil {
		headless.Missing(t, "chromium is not installed: apt-get install chromium")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.DisableGPU)
	allocated, cancelAllocated := chromedp.NewExecAllocator(t.Context(), options...)
	tab, cancelTab := chromedp.NewContext(allocated)
	w := &window{Context: tab, t: t}
	t.Cleanup(func() {
		_ = chromedp.Cancel(tab)
		cancelTab()
		cancelAllocated()
		w.mu.Lock()
		defer w.mu.Unlock()
		require.Empty(t, w.faults)
	})
	require.NoError(t, chromedp.Listen(tab, func(event any) {
		w.mu.Lock()
		defer w.mu.Unlock()
		switch e := event.(type) {
		case *log.EventEntryAdded:
			if !strings.Contains(e.Entry.Text, "the server responded with a status of") {
				w.faults = append(w.faults, e.Entry.Text)
			}
		case *network.EventRequestWillBeSent:
			w.asked = append(w.asked, e.Request.URL)
		case *network.EventLoadingFinished:
			w.bytes += int64(e.EncodedDataLength)
		}
	}))
	tell(w, log.Enable, cdp.Empty{})
	tell(w, network.Enable, network.EnableParams{})
	w.size(width, height)
	return w
}

// tell sends a command of the browser's own protocol.
func tell[P, R any](w *window, command cdp.Command[P, R], params P) {
	w.t.Helper()
	_, err := chromedp.Call(w.limited(), command, params)
	require.NoError(w.t, err)
}

// get runs an action that gives something.
func get[T any](w *window, action chromedp.Action[T]) T {
	w.t.Helper()
	value, err := chromedp.Run(w.limited(), action)
	require.NoError(w.t, err)
	return value
}

// limited ends what hangs, long before the test itself would be ended.
func (w *window) limited() context.Context {
	ctx, cancel := context.WithTimeout(w, time.Minute)
	w.t.Cleanup(cancel)
	return ctx
}

func (w *window) do(actions ...chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	require.NoError(w.t, chromedp.Do(w.limited(), actions...))
}

func (w *window) size(width, height int64) {
	w.t.Helper()
	tell(w, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: height, DeviceScaleFactor: 1})
}

func (w *window) visit(address string) {
	w.t.Helper()
	w.do(chromedp.Navigate(address), chromedp.WaitReady(chromedp.CSS("main")))
}

// press clicks what leads to another page and waits for that.
func (w *window) press(selector string) {
	w.t.Helper()
	w.leave(chromedp.Click(chromedp.CSS(selector)))
}

// leave does what leads to another page and waits for that.
func (w *window) leave(action chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	_, err := chromedp.RunResponse(w.limited(), action)
	require.NoError(w.t, err)
	w.do(chromedp.WaitReady(chromedp.CSS("main")))
}

// fill types into the boxes, after emptying them, and chooses.
func (w *window) fill(values ...string) {
	w.t.Helper()
	for i := 0; i < len(values); i += 2 {
		box := "#" + values[i]
		chosen := inPage[bool](w, fmt.Sprintf(`(() => {
			const box = document.querySelector(%q), folded = box.closest("details")
			if (folded) folded.open = true
			box.value = box.tagName === "SELECT" ? %q : ""
			return box.tagName === "SELECT"
		})()`, box, values[i+1]))
		if !chosen {
			w.do(chromedp.SendKeys(chromedp.CSS(box), values[i+1]))
		}
		require.Equal(w.t, values[i+1], w.value(values[i]))
	}
}

// text of the first element, as it is seen. Without such an element the test ends, showing the page.
func (w *window) text(selector string) string {
	w.t.Helper()
	if w.count(selector) == 0 {
		require.Failf(w.t, "nothing is there", "%s in\n%s", selector, inPage[string](w, "document.body.innerText"))
	}
	return strings.ReplaceAll(inPage[string](w, fmt.Sprintf("document.querySelector(%q).innerText", selector)), "\u00a0", " ")
}

// value of a box.
func (w *window) value(name string) string {
	w.t.Helper()
	return inPage[string](w, fmt.Sprintf("document.querySelector(%q).value", "#"+name))
}

// count of the elements.
func (w *window) count(selector string) int {
	w.t.Helper()
	return inPage[int](w, fmt.Sprintf("document.querySelectorAll(%q).length", selector))
}

// inPage evaluates JavaScript.
func inPage[T any](w *window, script string) T {
	w.t.Helper()
	return get(w, chromedp.Evaluate[T](script))
}

// keep writes a picture of the page, for people to look at, into the folder that is named in the environment.
func (w *window) keep(name string) {
	w.t.Helper()
	folder := os.Getenv("PONDWRIGHT_PICTURES")
	if folder == "" {
		return
	}
	png := get(w, chromedp.FullScreenshot(100))
	require.NoError(w.t, os.WriteFile(filepath.Join(folder, name+".png"), png, 0o644))
}
