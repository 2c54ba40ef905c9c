package intake_test

import (
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// salesHead are the columns of the sales that owners' cases have.
const salesHead = "Date,Item,Channel,Price\n"

// ownerCodes are the codes of sheets as owners keep them.
var ownerCodes = []problemCase{
	{fault.CodeTablesOnSheet, file("Book.csv", "Sales,,,,Hours,\nDate,Item,Price,,Date,Hours\n"+
		"2026-01-09,P1,90,,2026-01-09,2\n")},
	{fault.CodeTableUnnamed, file("sales.csv", "Date,Item,Price,,Date,What,Category,Amount\n"+
		"2026-01-09,P1,90,,2026-01-09,stall,booth rent,40\n")},
	{fault.CodeTableUnnamed, file("sales.csv", "Date,Item,Price,,Item,Paid\n2026-01-09,P1,90,,P2,40\n")},
	{fault.CodeCrossedOut, file("sales.xlsx", workbook("Sales", func(f *excelize.File) {
		struck, _ := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
		row(f, 1, "Date", "Item", "Channel", "Price", "Fee")
		row(f, 2, "2026-01-09", "P1", "market", 90, 9)
		row(f, 3, "2026-01-10", "P2", "market", 40)
		_ = f.SetCellStyle("Sales", "E2", "E2", struck)
		_ = f.SetCellStyle("Sales", "A3", "D3", struck)
	}))},
	{fault.CodeMoneyNotRead, file("sales.xlsx", workbook("Sales", func(f *excelize.File) {
		percent, _ := f.NewStyle(&excelize.Style{NumFmt: 10})
		row(f, 1, "Date", "Item", "Channel", "Price", "Fee")
		row(f, 2, "2026-01-09", "P1", "market", 90, 0.105)
		row(f, 3, "2026-01-10", "P2", "market", 40, "10.5% fee")
		_ = f.SetCellStyle("Sales", "E2", "E2", percent)
	}))},
	{fault.CodeSumDiffers, file("sales.csv", salesHead+"2026-01-09,P1,market,90\n2026-01-10,P2,market,40\nTotal,,,90\n")},
	{fault.CodePieceOfSeveral, pieces("piece,kind,got_on,price,area",
		"2 dining chairs,dining chair,2026-01-05,40,40\nPair of desks,desk,2026-01-05,40,60")},
	{fault.CodeSumUnclear, file("expenses.csv", "Date,What,Group,Amount\n2026-01-09,ads,advertising,10\n"+
		"2026-01-31,spent in January,other,15\n")},
	{fault.CodeTotalsRow, file("expenses.csv", "Date,What,Group,Amount\n2026-01-01,brought forward,other,10\n"+
		"2026-01-09,ads,advertising,10\n")},
	{fault.CodeTotalsRow, file("receipts.csv", "Date,Store,Item,Qty,Amount\n2026-01-09,shop,sandpaper,1,12\n"+
		"2026-01-09,shop,BALANCE DUE,1,12\n")},
	{fault.CodeAmountInWords, file("sales.csv", "Date,Item,Channel,Price,Notes\n2026-01-09,P1,market,90,deposit $25\n"+
		"2026-01-10,P2,market,40,gave back 5\n")},
	{fault.CodeShopPart, file("expenses.csv", "Date,What,Group,Amount,Business %\n"+
		"2026-01-09,phone,utilities,80,50%\n")},
	{fault.CodeOwnMoney, file("expenses.csv", "Date,What,Group,Amount\n2026-01-09,owner draw,other,80\n")},
	{fault.CodeSheetSkipped, file("Log.csv", "DT,ITEM,PP\n2026-01-09,oak desk,80\n")},
	{fault.CodeSaidInWords, file("sales.csv", salesHead+"2026-01-09,P1,market,$90 cash\n2026-01-10,P2,market,2 @ 20\n")},
	{fault.CodeYearTaken, file("Sales 2026.csv", salesHead+"1/9,P1,market,90\n10 Jan,P2,market,40\n")},
	{fault.CodeYearDoubtful, file("Sales Jan 2026.csv", salesHead+"12/30,P1,market,90\n")},
	{fault.CodeYearDoubtful, file("Sales 2026.csv", salesHead+"11/30,P1,market,90\n1/9,P2,market,40\n")},
	{fault.CodeChannelDirect, file("sales.csv", "Date,Item,Price\n2026-01-09,P1,90\n2026-01-10,P2,40\n")},
	{fault.CodeFeeFromNet, file("sales.csv", "Date,Item,Channel,Price,Net to me\n2026-01-09,P1,market,90,80\n"+
		"2026-01-10,P2,market,40,35\n")},
	{fault.CodeNetDiffers, map[string]string{"records/sales.csv": "Date,Item,Channel,Price,Fee,Payout\n" +
		"2026-01-09,P1,market,90,9,80\n2026-01-10,P2,market,40,,35\n",
		"records/channels.csv": "channel,fee_percent\nmarket,10\n"}},
	{fault.CodeNetUnclear, file("sales.csv", "Date,Item,Channel,Price,Sales tax,Net\n2026-01-09,P1,market,90,6,80\n"+
		"2026-01-10,P2,market,40,,45\n")},
	{fault.CodeNetUnclear, pieces("piece,kind,got_on,price,area,sold on,sold for,channel,net",
		"P1,chair,2026-01-05,40,12,2026-02-03,90,market,41")},
	{fault.CodeTicksAsked, pieces("piece,kind,got_on,price,area,Ask,Sold?", "P1,chair,2026-01-05,40,12,90,x")},
	{fault.CodeTicksAsked, pieces("piece,kind,got_on,price,area,Sold", "P1,chair,2026-01-05,40,12,yes")},
	{fault.CodeNameOtherwise, file("sales.csv", salesHead+"2026-01-09,P-1,market,90\n2026-01-10,p 2,market,40\n")},
	{fault.CodeSupplyBySlip, file("receipts.csv", "Date,Store,Item,Amount\n2026-01-09,shop,2x 120 grit sandpaper,12\n"+
		"2026-01-10,shop,chip brush,3\n")},
	{fault.CodeSlipUnplaced, file("receipts.csv", "Date,Store,Item,Amount\n2026-01-09,shop,lunch,9.50\n"+
		"2026-01-10,shop,batteries,3\n")},
	{fault.CodeTakenBackSigns, file("receipts.csv", "Date,Store,Item,Amount\n2026-01-09,shop,sandpaper,9.50\n"+
		"2026-01-10,shop,coupon,3\n")},
	{fault.CodeSlipIsPrice, file("receipts.csv", "Date,Store,Item,Amount\n2026-01-05,mill,P1 from the mill,40\n")},
	{fault.CodeCashBook, file("till.csv", "Date,What,In,Out\n2026-01-09,sold P1,90,\n2026-01-10,sandpaper,,12\n")},
	{fault.CodeCashBook, file("sales.csv", "Date,Item,In,Out\n2026-01-09,P1,90,\n2026-01-10,sandpaper,,12\n")},
	{fault.CodeCashBook, map[string]string{"settings.toml": "[sheets]\n\"till!In\" = \"sales\"\n\"till!Out\" = \"none\"\n",
		"records/till.csv": "Date,What,In,Out\n2026-01-01,start,,\n2026-01-09,sold P1,90,9\n2026-01-10,sandpaper,,12\n"}},
	{fault.CodeSaleUndone, file("sales.csv", "Date,Item,Channel,Price,Status\n2026-01-09,P1,market,90,Returned\n"+
		"2026-01-10,P2,market,40,paid\n")},
	{fault.CodeAllBelow, file("expenses.csv", "Date,What,Group,Amount\n2026-01-09,ads,advertising,-10\n"+
		"2026-01-10,paper,office,(4.50)\n")},
	{fault.CodeKindFromName, map[string]string{"settings.toml": "kind_from = \"piece\"\n",
		"records/pieces.csv": "piece,got_on," +
			"price,area\nOak dresser,2026-01-05,40,30\nPine desk,2026-01-06,15,33\n"}},
	{fault.CodeSupplyAsPiece, map[string]string{"records/pieces.csv": "piece,kind,got_on,price,area\n" +
		"P1,desk,2026-01-05,40,30\nP2,supplies - stripper,2026-01-06,15,33\n,wax + poly,2026-01-06,33.40,\n"}},
	{fault.CodeLessBack, file("receipts.csv", "Date,Store,Item,Amount\n2026-01-05,mill,sanding discs 5pk,15.97\n"+
		"2026-01-09,mill,return sanding discs 5pk,-7.99\n")},
	{fault.CodeKindNotInName, map[string]string{"settings.toml": "kind_from = \"piece\"\n",
		"records/pieces.csv": "piece,got_on," +
			"price,area\nOak dresser,2026-01-05,40,30\nBargain,2026-01-06,15,33\nDesk with chair,2026-01-06,15,33\n"}},
	{fault.CodeColumnMissing, map[string]string{"records/pieces.csv": "piece,got_on,price,area\nOak " +
		"dresser,2026-01-05,40," +
		"30\nPine desk,2026-01-06,15,33\n"}},
	{fault.CodePieceUnknown, file("sales.csv", "Date,Item,Customer,Price\n2026-01-09,oak,P1,90\n2026-01-10,pine,P2,40\n")},
	{fault.CodeTurnedOver, map[string]string{"records/pieces.csv": "piece,P1,P2\nkind,dresser,chair\n" +
		"got on,2026-01-05,2026-01-06\nprice,40,15\narea,30,12\n"}},
	{fault.CodeFormRead, map[string]string{"records/pieces.csv": "", "records/Oak dresser.csv": "kind,dresser\n" +
		"got on,2026-01-05\nprice,40\narea,30\n", "records/Desk.csv": "kind,desk\ngot on,2026-01-05\nprice,40\narea,30\n"}},
	{fault.CodeFormLeft, map[string]string{"records/pieces.csv": "", "records/Oak dresser.csv": "kind,dresser\n" +
		"got on,2026-01-05\nprice,40\narea,30\nbuyer,Ann\nCosts\nhinges,6.50\nstain,9\n",
		"records/Desk.csv": "kind,desk\ngot on,2026-01-05\nprice,40\narea,30\nbuyer,Bo\n"}},
	{fault.CodeColumnMissing, file("expenses.csv", "What,Group,Date,January,February\nads,advertising,2026-01-09,10,20\n")},
	{fault.CodeLinesOfWords, file("sales.csv", "1/9 sold P1 for $90\n1/10 sold P2 for $40\n")},
	{fault.CodeLinesOfWords, file("Phone.csv", "sanded P1 for 2 hours\nbrush from the shop $4\n")},
}
