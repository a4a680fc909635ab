package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/parquet-go/parquet-go"
)

// The number of people varies, so that chunks have tables of unlike size.
func TestBatchOfColdIsTheSameOnAnyNumberOfWorkersAndShards(t *testing.T) {
	for _, format := range []string{"csv", "parquet"} {
		t.Run(format, func(t *testing.T) {
			t.Chdir(t.TempDir())
			line := []string{"warmby", "batch", "--runs", "400", "--vary", "people=5,6", "--cold", "--format", format,
				"--order", "shelter first", "--order", "two groups"}
			play := func(more ...string) { answer(t, append(line[:len(line):len(line)], more...)...) }
			play("--workers", "1", "--out", "one")
			want := folder(t, "one")
			if want["cold."+format] == "" {
				t.Fatal("no table of cold")
			}
			for _, workers := range []string{"2", "7"} {
				play("--workers", workers, "--out", "w"+workers)
				same(t, want, folder(t, "w"+workers), workers+" workers")
			}
			for i := 3; i >= 1; i-- {
				play("--shard", fmt.Sprintf("%d/3", i), "--out", filepath.Join("parts", strconv.Itoa(i)))
			}
			answer(t, "warmby", "merge", "parts", "--out", "whole")
			same(t, want, folder(t, "whole"), "3 shards")
		})
	}
}

func TestTheTableOfColdIsWhatRehearseTells(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, format := range []string{"csv", "parquet"} {
		answer(t, "warmby", "batch", "--runs", "20", "--cold", "--format", format, "--out", format)
	}
	rows, err := parquet.ReadFile[coldRow]("parquet/cold.parquet")
	if err != nil {
		t.Fatal(err)
	}
	table := readCSV(t, "csv/cold.csv", ',')
	if len(table) != len(rows)+1 {
		t.Fatalf("%d rows in Parquet, %d in CSV", len(rows), len(table)-1)
	}
	told := map[string][][]string{}
	for i, r := range rows {
		row := []string{fmt.Sprint(r.Point), fmt.Sprint(r.Run), r.Order, r.Person, threeDecimals(r.Peak), threeDecimals(r.PeakAt), threeDecimals(r.Passed)}
		if diff := cmp.Diff(table[i+1], row); diff != "" {
			t.Fatalf("row %d:\n%s", i, diff)
		}
		if r.Run == 17 {
			told[r.Order] = append(told[r.Order], row[3:])
		}
	}
	for order, got := range told {
		var doc struct {
			People []struct {
				Name string `json:"name"`
				Cold struct {
					Peak   float64  `json:"peak_wh_m2"`
					At     *float64 `json:"at_s"`
					Passed *float64 `json:"passed_at_s"`
				} `json:"cold"`
			} `json:"people"`
		}
		if err := json.Unmarshal([]byte(answer(t, "warmby", "rehearse", "--seed", "1", "--run", "17", "--order", order, "--json")), &doc); err != nil {
			t.Fatal(err)
		}
		for i, p := range doc.People {
			peak, err := strconv.ParseFloat(got[i][1], 64)
			if err != nil || math.Abs(peak-p.Cold.Peak) > 0.06 || // rehearse rounds
				got[i][0] != p.Name || got[i][2] != threeDecimals(p.Cold.At) || got[i][3] != threeDecimals(p.Cold.Passed) {
				t.Errorf("%s: the table has %q, rehearse tells %+v of %s", order, got[i], p.Cold, p.Name)
			}
		}
	}
}

func TestATableOfColdNeedsWeatherAndClothing(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("odd.yaml", []byte(oddNames), 0o666); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"batch", "odd.yaml", "--runs", "20", "--cold"}, strings.NewReader(""), &stdout, &stderr); code != exitUsage {
		t.Errorf("exit code %d, want %d", code, exitUsage)
	}
	if !strings.Contains(stderr.String(), "--cold: odd has no account of cold: it needs weather") {
		t.Errorf("standard error is %q", &stderr)
	}
	if _, err := os.Stat("odd.part"); !os.IsNotExist(err) {
		t.Error("a folder was begun")
	}
}
