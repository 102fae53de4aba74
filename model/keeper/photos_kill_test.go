package keeper

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
)

// childDir names the data folder of a child process of the drill, which is this
// test's own program.
const childDir = "DRIPLOOP_TEST_PHOTOS"

func TestMain(m *testing.M) {
	if task := os.Getenv(childTask); task != "" {
		fullChild(task)
		return
	}
	if dir := os.Getenv(childDir); dir != "" {
		fmt.Println("failed", addForEver(dir))
		os.Exit(3)
	}
	os.Exit(m.Run())
}

// letterPicture is a picture of the tests.
func letterPicture() ([]byte, error) {
	return os.ReadFile(filepath.Join("..", "..", "testdata", "photos", "letter-1.jpg"))
}

const perBatch = 4

// addForEver adds batches of pictures and says of each batch when it is in the
// daybook, until it is killed.
func addForEver(dir string) error {
	ctx := context.Background()
	jpg, err := letterPicture()
	if err != nil {
		return err
	}
	k, err := Open(ctx, dir, Options{Now: time.Now})
	if err != nil {
		return err
	}
	tanks, err := k.Tanks(ctx)
	if err != nil {
		return err
	}
	have, err := k.Photos(ctx, tanks[0].ID, PhotoFilter{})
	if err != nil {
		return err
	}
	fmt.Println("open")
	for n := len(have); ; n += perBatch {
		var sources []photo.Source
		for i := range perBatch {
			sources = append(sources, photo.Source{Name: "p.jpg", Bytes: numbered(jpg, n+i)})
		}
		a, err := k.AddPhotos(ctx, tanks[0].ID, sources, AddOptions{}, nil)
		if err != nil || len(a.Photos) != perBatch {
			return fmt.Errorf("%+v: %w", a, err)
		}
		fmt.Println("ack", n+perBatch)
	}
}

// TestKilledWhileAddingPhotos (D2-01): killed at any moment, every picture that
// was told as added is there with its file, no row is without one, a batch is
// there whole or not at all; a file without a row is the worst that is left.
func TestKilledWhileAddingPhotos(t *testing.T) {
	rounds := drill.Count(8, 1000)
	ctx, dir := context.Background(), ""
	openIt := func() *Keeper {
		k, err := Open(ctx, dir, Options{Now: time.Now})
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	tank := ""
	random := rand.New(rand.NewPCG(5, 6))
	told, total, orphans := 0, 0, 0 // pictures of the folders before, and of this one
	for round := range rounds {
		if round%50 == 0 { // a daybook that grows for ever takes ever longer to check
			_ = os.RemoveAll(dir)
			dir, told, total = t.TempDir(), told+total, 0
			k, err := openIt(), error(nil)
			if tank, err = k.StartTank(ctx, "Pond", quantity.Metric); err != nil {
				t.Fatal(err)
			}
			if err := k.Close(); err != nil {
				t.Fatal(err)
			}
		}
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), childDir+"="+dir)
		cmd.Stderr = os.Stderr
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(out)
		if !lines.Scan() || lines.Text() != "open" {
			t.Fatalf("round %d: the child said %q", round, lines.Text())
		}
		acked := 0
		next := func() bool {
			if !lines.Scan() {
				return false
			}
			if _, err := fmt.Sscanf(lines.Text(), "ack %d", &acked); err != nil {
				t.Fatalf("round %d: the child said %q", round, lines.Text())
			}
			return true
		}
		if round%2 == 0 && !next() { // however slow the machine is, there is something to be lost
			t.Fatalf("round %d: the child ended by itself", round)
		}
		time.Sleep(time.Duration(10+random.IntN(150)) * time.Millisecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for next() {
		}
		_ = cmd.Wait()

		k := openIt()
		ps := mustPhotos(t, k, tank, PhotoFilter{})
		if len(ps) < acked || len(ps) < total || len(ps)%perBatch != 0 {
			t.Fatalf("round %d: %d pictures, %d told, %d before", round, len(ps), acked, total)
		}
		total = len(ps)
		files, err := k.VerifyPhotos(ctx)
		if err != nil || !files.OK() || files.Sound != total {
			t.Fatalf("round %d: %+v %v", round, files, err)
		}
		if r, err := k.Verify(ctx); err != nil || !r.OK() {
			t.Fatalf("round %d: %+v %v", round, r, err)
		}
		kept, _ := filepath.Glob(filepath.Join(dir, photo.Folder, "??", "*"))
		orphans = max(orphans, len(kept)-total)
		if err := k.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if told+total < rounds {
		t.Errorf("only %d pictures in %d rounds: the drill wrote too little to show anything", told+total, rounds)
	}
	drill.Tally(t, "D2-01", fmt.Sprintf("kills while adding pictures, %d told as kept, %d files without a row", told+total, orphans), rounds, 0)
}
