package batch

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
)

// A journal is a line and then records. The line is the [Header] as JSON, a tab
// and the checksum of the JSON (CRC-32C, eight hexadecimal digits). A record is
// the length of what follows and its checksum (CRC-32C), 4 bytes each with the
// low one first, and a chunk as numbers of variable length.

// JournalFormat is the version of the form of journals.
const JournalFormat = 4

// maxHeader and maxRecord bound what is read at once.
const (
	maxHeader = 256 << 20
	maxRecord = 1 << 30
)

// Header is the beginning of a journal.
type Header struct {
	Format int `json:"warmby_journal"`
	// Job says what is played, in the caller's words: all that the result
	// depends on. The shards of a batch have the same.
	Job   json.RawMessage `json:"job"`
	Shard Shard           `json:"shard"` // the zero value for the whole
	// Note is the caller's, and may differ from shard to shard.
	Note string `json:"note,omitempty"`
}

// SameJob reports whether two headers are of the same batch.
func (h *Header) SameJob(o *Header) bool {
	var a, b bytes.Buffer
	return json.Compact(&a, h.Job) == nil && json.Compact(&b, o.Job) == nil && bytes.Equal(a.Bytes(), b.Bytes())
}

// Line returns the header as it stands at the beginning of a journal.
func (h Header) Line() ([]byte, error) {
	h.Format = JournalFormat
	line, err := json.Marshal(h)
	if err == nil && len(line) >= maxHeader {
		err = fmt.Errorf("a journal's header of %d bytes is too long", len(line))
	}
	return fmt.Appendf(line, "\t%08x\n", crc32.Checksum(line, castagnoli)), err
}

// readLine takes a header out of its line.
func (h *Header) readLine(line []byte) error {
	text, sum, stamped := bytes.Cut(bytes.TrimSuffix(line, []byte("\n")), []byte("\t"))
	if stamped && string(sum) != fmt.Sprintf("%08x", crc32.Checksum(text, castagnoli)) {
		return ErrNoJournal
	}
	if err := json.Unmarshal(text, h); err != nil || h.Format < 1 {
		return ErrNoJournal
	}
	if h.Format != JournalFormat {
		return fmt.Errorf("the journal has format %d; this version reads %d", h.Format, JournalFormat)
	}
	if !stamped {
		return ErrNoJournal
	}
	return nil
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// AppendRecord adds the record of a chunk to bytes.
func AppendRecord(b []byte, c *Chunk) []byte {
	start := len(b)
	b = append(b, make([]byte, 8)...)
	b = appendChunk(b, c)
	body := b[start+8:]
	binary.LittleEndian.PutUint32(b[start:], uint32(len(body)))
	binary.LittleEndian.PutUint32(b[start+4:], crc32.Checksum(body, castagnoli))
	return b
}

// ErrTorn is a journal that does not end with a whole chunk: what wrote it was
// killed, or its disk was full.
var ErrTorn = errors.New("the journal ends within a chunk")

// ErrNoJournal is a file that is no journal, or one whose first line is damaged.
var ErrNoJournal = errors.New("not a journal of warmby, or its first line is damaged")

// Reader reads a journal.
type Reader struct {
	r      *bufio.Reader
	Header Header
	offset int64
}

// NewReader reads the header of a journal. The error is [ErrNoJournal] when
// there is none.
func NewReader(r io.Reader) (*Reader, error) {
	jr := &Reader{r: bufio.NewReaderSize(r, 1<<20)}
	var line []byte
	for {
		part, err := jr.r.ReadSlice('\n')
		line = append(line, part...)
		if err == nil {
			break
		}
		if !errors.Is(err, bufio.ErrBufferFull) && !errors.Is(err, io.EOF) {
			return nil, err
		}
		if !errors.Is(err, bufio.ErrBufferFull) || len(line) > maxHeader {
			return nil, ErrNoJournal
		}
	}
	if err := jr.Header.readLine(line); err != nil {
		return nil, err
	}
	jr.offset = int64(len(line))
	return jr, nil
}

// Offset returns where the last whole chunk that was read ends, in bytes.
func (r *Reader) Offset() int64 { return r.offset }

// Record returns the bytes of the next chunk, for [Decode]; io.EOF at the end,
// [ErrTorn] when what follows is no whole chunk.
func (r *Reader) Record() ([]byte, error) {
	var head [8]byte
	if _, err := io.ReadFull(r.r, head[:]); err != nil {
		return nil, torn(err)
	}
	n := binary.LittleEndian.Uint32(head[:])
	if n == 0 || n > maxRecord { // zeros are what a crash of the machine may leave
		return nil, ErrTorn
	}
	// Grows with what is there, so that a garbled length takes no memory.
	var b bytes.Buffer
	if _, err := io.CopyN(&b, r.r, int64(n)); err != nil {
		if errors.Is(err, io.EOF) {
			err = ErrTorn
		}
		return nil, err
	}
	if crc32.Checksum(b.Bytes(), castagnoli) != binary.LittleEndian.Uint32(head[4:]) {
		return nil, ErrTorn
	}
	r.offset += 8 + int64(n)
	return b.Bytes(), nil
}

// Chunk reads the next chunk; errors as for Record.
func (r *Reader) Chunk() (*Chunk, error) {
	b, err := r.Record()
	if err != nil {
		return nil, err
	}
	return Decode(b)
}

// Decode makes a chunk of the bytes of a record.
func Decode(record []byte) (*Chunk, error) { return decodeChunk(record) }

func torn(err error) error {
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return ErrTorn
	}
	return err
}
