package files

import (
	"fmt"
	"hash/crc32"
	"io"
	"os"
)

// Sum tells a content from others: how many bytes it has, and their CRC-32 (IEEE
// 802.3), which sees every change within four neighbouring bytes and all but one in
// four thousand million others. It guards against accidents, not against forgers,
// and costs a tenth of what a cryptographic sum does.
type Sum struct {
	bytes int64
	crc   uint32
}

// Write adds to the content.
func (s *Sum) Write(p []byte) (int, error) {
	s.bytes += int64(len(p))
	s.crc = crc32.Update(s.crc, crc32.IEEETable, p)
	return len(p), nil
}

// String is read by parseSum.
func (s Sum) String() string { return fmt.Sprintf("%08x-%d", s.crc, s.bytes) }

func parseSum(text string) (s Sum, err error) {
	if _, err = fmt.Sscanf(text, "%08x-%d", &s.crc, &s.bytes); err == nil && (s.String() != text || s.bytes < 0) {
		err = fmt.Errorf("%q is no sum", text)
	}
	return s, err
}

// sumOf reads a file and returns the sum of its content.
func sumOf(path string) (s Sum, err error) {
	f, err := os.Open(path)
	if err != nil {
		return s, err
	}
	defer f.Close()
	_, err = io.Copy(&s, f)
	return s, err
}
