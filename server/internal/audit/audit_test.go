package audit_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/audit"
	"example.com/pondwright/server/internal/config"
)

func opened(t *testing.T, folder string, rotate config.Bytes) *audit.Log {
	t.Helper()
	l, mended, err := audit.Open(config.Audit{Folder: config.Path(folder), Rotate: rotate})
	require.NoError(t, err)
	assert.Empty(t, mended)
	return l
}

func verified(t *testing.T, folder string) (audit.End, error) {
	t.Helper()
	files, err := audit.Files(folder)
	require.NoError(t, err)
	return audit.Verify(files, func(audit.Entry) error { return nil })
}

func fill(t *testing.T, l *audit.Log, entries int) {
	t.Helper()
	for i := range entries {
		require.NoError(t, l.Append(audit.Entry{Method: "/a.B/C", Caller: fmt.Sprint(i), Request: bytes.Repeat([]byte{byte(i)}, 40)}))
	}
}

// Written by several at once, rotated, closed and opened again: what comes out is one chain.
func TestLogIsOneChain(t *testing.T) {
	folder := t.TempDir()
	for range 3 {
		l := opened(t, folder, 2000)
		var all sync.WaitGroup
		for range 4 {
			all.Go(func() { fill(t, l, 10) })
		}
		all.Wait()
		_, _, err := audit.Open(config.Audit{Folder: config.Path(folder), Rotate: 2000})
		assert.ErrorContains(t, err, "another server writes")
		require.NoError(t, l.Close())
		assert.Error(t, l.Append(audit.Entry{}), "closed is closed")
	}
	end, err := verified(t, folder)
	require.NoError(t, err)
	assert.EqualValues(t, 120, end.Entries)
	files, _ := audit.Files(folder)
	assert.Greater(t, len(files), 10)
}

// Any one byte that is changed, any line that is taken out, doubled or moved, and any file that is missing in the middle is found.
func TestWhateverIsChangedIsFound(t *testing.T) {
	folder := t.TempDir()
	l := opened(t, folder, 1<<20)
	fill(t, l, 4)
	require.NoError(t, l.Close())
	files, _ := audit.Files(folder)
	require.Len(t, files, 1)
	text, err := os.ReadFile(files[0])
	require.NoError(t, err)
	holds := func(changed []byte) error {
		require.NoError(t, os.WriteFile(files[0], changed, 0o600))
		_, err := verified(t, folder)
		return err
	}
	require.NoError(t, holds(text))
	for i := range text {
		changed := bytes.Clone(text)
		changed[i] ^= 1
		assert.Error(t, holds(changed), "byte %d", i)
	}
	lines := bytes.SplitAfter(text, []byte("\n"))[:4]
	for name, order := range map[string][]int{"taken out": {0, 2, 3}, "doubled": {0, 1, 1, 2, 3}, "moved": {0, 2, 1, 3}} {
		var changed []byte
		for _, i := range order {
			changed = append(changed, lines[i]...)
		}
		assert.Error(t, holds(changed), name)
	}
	assert.Error(t, holds(text[:len(text)-1]), "cut short")

	whole := t.TempDir()
	l = opened(t, whole, 1000)
	fill(t, l, 20)
	require.NoError(t, l.Close())
	files, _ = audit.Files(whole)
	require.Greater(t, len(files), 3)
	require.NoError(t, os.Remove(files[1]))
	_, err = verified(t, whole)
	assert.ErrorContains(t, err, "entries are missing")
}

// A power cut leaves half an entry: it is set aside, and the log goes on from the last whole one.
func TestHalfAnEntryIsSetAside(t *testing.T) {
	folder := t.TempDir()
	l := opened(t, folder, 1<<20)
	fill(t, l, 3)
	require.NoError(t, l.Close())
	files, _ := audit.Files(folder)
	f, err := os.OpenFile(files[0], os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString(`{"number":4,"ti`)
	require.NoError(t, err)
	require.NoError(t, f.Close())

	l, mended, err := audit.Open(config.Audit{Folder: config.Path(folder), Rotate: 1 << 20})
	require.NoError(t, err)
	half, err := os.ReadFile(mended)
	require.NoError(t, err)
	assert.Equal(t, `{"number":4,"ti`, string(half))
	fill(t, l, 1)
	require.NoError(t, l.Close())
	end, err := verified(t, folder)
	require.NoError(t, err)
	assert.EqualValues(t, 4, end.Entries)
}

func TestOldestFilesAreDropped(t *testing.T) {
	folder := t.TempDir()
	l, _, err := audit.Open(config.Audit{Folder: config.Path(folder), Rotate: 1000, Keep: 2})
	require.NoError(t, err)
	fill(t, l, 30)
	require.NoError(t, l.Close())
	files, _ := audit.Files(folder)
	assert.Len(t, files, 2)
	end, err := verified(t, folder)
	require.NoError(t, err, "what is left still holds together")
	assert.Greater(t, end.First, uint64(1))
}

// A log that was changed is not gone on with.
func TestAChangedLogIsNotGoneOnWith(t *testing.T) {
	folder := t.TempDir()
	l := opened(t, folder, 1<<20)
	fill(t, l, 2)
	require.NoError(t, l.Close())
	require.NoError(t, os.WriteFile(filepath.Join(folder, "audit-00000000000000000001.jsonl"), []byte("{}\n"), 0o600))
	_, _, err := audit.Open(config.Audit{Folder: config.Path(folder), Rotate: 1 << 20})
	assert.ErrorContains(t, err, "cannot be gone on with")
}

func TestDifferencesNameTheirFields(t *testing.T) {
	was := &pb.SolveDutyResponse{Provenance: &pb.Provenance{MethodSet: "1"}, Findings: []*pb.Finding{{Code: "A"}, {Code: "B"}}}
	is := &pb.SolveDutyResponse{Provenance: &pb.Provenance{MethodSet: "2"}, Findings: []*pb.Finding{{Code: "A"}, {Code: "C"}}}
	assert.Equal(t, []string{"findings[1].code was B, is C"}, audit.Differences(was, is, 9))
	one, err := audit.DigestOf(was)
	require.NoError(t, err)
	was.Provenance = nil
	other, err := audit.DigestOf(was)
	require.NoError(t, err)
	assert.Equal(t, one, other)
	is.Findings = is.Findings[:1]
	assert.Equal(t, []string{"findings was 2 entries, is 1"}, audit.Differences(was, is, 9))
}
