package shapes

import "piecebook/ledger/testkit/smallbooks"

var (
	base     = smallbooks.Base
	file     = smallbooks.File
	settings = smallbooks.Settings
	workbook = smallbooks.Workbook
	row      = smallbooks.Row
	pieces   = smallbooks.Pieces
	read     = smallbooks.Read
	noErrors = smallbooks.NoErrors
)

const usesHead = smallbooks.UsesHead
