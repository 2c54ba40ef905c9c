package report_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/report/figuresjson"
	"piecebook/report/month"
	"piecebook/report/piece"
	"piecebook/report/testkit"
	"piecebook/report/text"
	"piecebook/report/trace"
)

func TestGoldens(t *testing.T) {
	in := testkit.SmallShop(t)
	testkit.Golden(t, "month.txt", text.Render(month.Doc(in), text.Width))
	testkit.Golden(t, "pieces.txt", text.Render(piece.PeriodSheets(in), text.Width))
	testkit.Golden(t, "sheet-unsold.txt", text.Render(piece.Sheets(in, []string{"C", "nobody", "D"}), text.Width))
	testkit.Golden(t, "why.txt", text.Render(trace.Doc(in, "A: supplies", in.Postings[1:5], 1744), text.Width))
	json, err := figuresjson.Month(in.Month)
	require.NoError(t, err)
	testkit.Golden(t, "figures.json", string(json))
}
