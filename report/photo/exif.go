package photo

import "encoding/binary"

// orientationTag is the orientation's in a TIFF directory (Exif 2.32, CIPA
// DC-008, table 4; TIFF 6.0, section 8).
const orientationTag = 0x0112

// orientation is how a JPEG's camera was held, 1 to 8; 1, upright, where the
// file does not say or cannot be followed: a photo lying on its side is better
// than none.
func orientation(raw []byte) int {
	tiff := exifBlock(raw)
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	entries := int64(order.Uint16(tiff[at:]))
	for i := range entries {
		e := at + 2 + 12*i
		if e+12 > int64(len(tiff)) {
			return 1
		}
		// Type 3 is a 16-bit number; one of them stands in the entry itself.
		if order.Uint16(tiff[e:]) != orientationTag || order.Uint16(tiff[e+2:]) != 3 {
			continue
		}
		if v := int(order.Uint16(tiff[e+8:])); v >= 1 && v <= 8 {
			return v
		}
		return 1
	}
	return 1
}

// exifBlock is the TIFF part of a JPEG's Exif segment (APP1), nil where there
// is none before the picture itself begins.
func exifBlock(raw []byte) []byte {
	const app1, startOfScan = 0xE1, 0xDA
	for at := 2; at+4 <= len(raw) && raw[at] == 0xFF; {
		marker := raw[at+1]
		if marker == 0xFF { // a fill byte
			at++
			continue
		}
		length := int(binary.BigEndian.Uint16(raw[at+2:]))
		if marker == startOfScan || length < 2 || at+2+length > len(raw) {
			return nil
		}
		body := raw[at+4 : at+2+length]
		if marker == app1 && len(body) > 6 && string(body[:6]) == "Exif\x00\x00" {
			return body[6:]
		}
		at += 2 + length
	}
	return nil
}
