package main

import (
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	_ "google.golang.org/grpc/health"
	"google.golang.org/grpc/resolver"
	"google.golang.org/grpc/resolver/manual"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/deploy"
)

// tool finds a program that the gate installs.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("PONDWRIGHT_CROSSCHECK") == "required" {
		require.NoError(t, err)
	} else if err != nil {
		t.Skipf("%s is not installed: %v", name, err)
	}
	return path
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	return l.Addr().String()
}

// Three replicas, of which one is killed every second while four callers go on asking: with the service config that is shipped no
// caller sees a failed call, whether the client goes round the replicas itself or a balancer does. Bounded to five kills each.
func TestAKilledReplicaCostsNobodyACall(t *testing.T) {
	var replicas []string
	var commands []*exec.Cmd
	for range 3 {
		at := freePort(t)
		cmd, _ := launch(t, "--listen", at)
		replicas, commands = append(replicas, at), append(commands, cmd)
	}
	kill := func(i int) {
		require.NoError(t, commands[i].Process.Kill())
		_ = commands[i].Wait()
		commands[i], _ = launch(t, "--listen", replicas[i])
	}
	t.Run("by the client", func(t *testing.T) {
		listed := manual.NewBuilderWithScheme("replicas")
		var state resolver.State
		for _, at := range replicas {
			state.Endpoints = append(state.Endpoints, resolver.Endpoint{Addresses: []resolver.Address{{Addr: at}}})
		}
		listed.InitialState(state)
		noCallFails(t, "replicas:///pond", kill, grpc.WithResolvers(listed))
	})
	t.Run("by haproxy", func(t *testing.T) {
		haproxy := tool(t, "haproxy")
		text, err := os.ReadFile(filepath.Join("deploy", "haproxy", "haproxy.cfg"))
		require.NoError(t, err)
		front := freePort(t)
		changed := strings.NewReplacer("127.0.0.1:4870", front, "127.0.0.1:4860", replicas[0], "127.0.0.1:4862", replicas[1],
			"127.0.0.1:4864", replicas[2]).Replace(string(text))
		path := filepath.Join(t.TempDir(), "haproxy.cfg")
		require.NoError(t, os.WriteFile(path, []byte(changed), 0o600))
		cmd := exec.Command(haproxy, "-db", "-f", path)
		require.NoError(t, cmd.Start())
		t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
		noCallFails(t, "passthrough:///"+front, kill)
	})
}

func noCallFails(t *testing.T, target string, kill func(int), options ...grpc.DialOption) {
	t.Helper()
	options = append(options, grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithDefaultServiceConfig(deploy.ServiceConfig), grpc.WithUnaryInterceptor(deploy.Again()))
	conn, err := grpc.NewClient(target, options...)
	require.NoError(t, err)
	defer conn.Close()
	ctx, stop := context.WithCancel(t.Context())
	var callers sync.WaitGroup
	var answered atomic.Int64
	failed := make(chan error, 1000)
	for range 4 {
		callers.Go(func() {
			for ctx.Err() == nil {
				limit, cancel := context.WithTimeout(context.WithoutCancel(ctx), 30*time.Second)
				_, err := pb.NewHydraulicsServiceClient(conn).ListPipeSizes(limit, &pb.ListPipeSizesRequest{})
				cancel()
				if err != nil {
					select {
					case failed <- err:
					default:
					}
					continue
				}
				answered.Add(1)
			}
		})
	}
	for i := range 5 {
		before := answered.Load()
		require.Eventually(t, func() bool { return answered.Load() > before+50 }, 30*time.Second, 10*time.Millisecond, "callers go on")
		kill(i % 3)
	}
	stop()
	callers.Wait()
	close(failed)
	said := map[string]int{}
	for err := range failed {
		said[fmt.Sprint(err)]++
	}
	assert.Empty(t, said)
	t.Logf("%d calls answered over 5 kills", answered.Load())
}
