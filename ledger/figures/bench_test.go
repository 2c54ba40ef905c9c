package figures_test

import (
	"math/big"
	"os"
	"path/filepath"
	"testing"

	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// The sample's fourteen months, step by step; compare them as ratios within
// one run.

func BenchmarkReadSample(b *testing.B) {
	set, err := templates.Load()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	}
}

func BenchmarkCostSample(b *testing.B) {
	l := sampleLedger(b)
	for b.Loop() {
		costing.Run(l.Books, l.Months[len(l.Months)-1].Month)
	}
}

func BenchmarkFiguresOfAMonth(b *testing.B) {
	l := sampleLedger(b)
	last := l.Months[len(l.Months)-1].Month
	for b.Loop() {
		figures.For(l, last, last)
	}
}

func BenchmarkShareOverFifty(b *testing.B) {
	weights := make([]*big.Rat, 50)
	for i := range weights {
		weights[i] = big.NewRat(int64(100+i*i), 7)
	}
	for b.Loop() {
		money.Share(123_456, weights)
	}
}

func sampleLedger(b *testing.B) *costing.Ledger {
	set, err := templates.Load()
	if err != nil {
		b.Fatal(err)
	}
	read := intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	return costing.Run(&read.Books, checks.LastMonth(&read.Books))
}
