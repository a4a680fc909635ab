package results

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/parquet-go/parquet-go"

	"warmby/sim"
	"warmby/sim/batch"
)

// The formats of tables.
const (
	CSV     = "csv"
	Parquet = "parquet"
)

// rows is what a table has to say of chunks. Row is a struct with a field for
// each column, which its tags name and explain.
type rows[Row any] struct {
	p *Plan
	// each calls a function for each row of a chunk that fits the plan. It is
	// called from several goroutines.
	each func(c *batch.Chunk, a *arena, row func(Row))
}

// arena holds numbers that rows point to.
type arena struct{ block []float64 }

// put keeps a number and returns where it stands.
func (a *arena) put(v float64) *float64 {
	if len(a.block) == cap(a.block) {
		a.block = make([]float64, 0, 4096) // rows still point into the one before
	}
	a.block = append(a.block, v)
	return &a.block[len(a.block)-1]
}

// seconds keeps a time in seconds; nil for never.
func (a *arena) seconds(t sim.Time) *float64 {
	if t == sim.Never {
		return nil
	}
	return a.put(t.Seconds())
}

// thousandths keeps a number of thousandths; nil below 0.
func (a *arena) thousandths(n int64) *float64 {
	if n < 0 {
		return nil
	}
	return a.put(float64(n) / 1000)
}

// open makes the file of the table.
func (t rows[Row]) open(folder, name string) (batchTable, error) {
	if t.p.Job.Format == Parquet {
		return t.openParquet(folder, name)
	}
	var row Row
	head := []string{}
	for _, f := range fieldsOf(row) {
		head = append(head, f.Name)
	}
	return newCSVTable(folder, name, dialects[t.p.Job.CSV], head, t.csv)
}

// csv makes the rows of a chunk as CSV and counts them.
func (t rows[Row]) csv(c *batch.Chunk) (b []byte, n int64) {
	d, list := dialects[t.p.Job.CSV], columnsOf(*new(Row))
	t.each(c, new(arena), func(row Row) {
		v := reflect.ValueOf(&row).Elem()
		for i := range list {
			if i > 0 {
				b = append(b, d.comma...)
			}
			b = d.appendField(b, v.FieldByIndex(list[i].Index))
		}
		b, n = append(b, d.end...), n+1
	})
	return b, n
}

// appendField adds a number or a name: a *float64 with three decimals, empty
// when nil, a float64 with as many as it takes to read it back.
func (d dialect) appendField(b []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.String:
		return append(b, d.name(v.String())...)
	case reflect.Float64:
		return append(b, d.number(strconv.FormatFloat(v.Float(), 'g', -1, 64))...)
	case reflect.Pointer:
		if v.IsNil() {
			return b
		}
		return append(b, d.number(strconv.FormatFloat(v.Elem().Float(), 'f', 3, 64))...)
	}
	return strconv.AppendInt(b, v.Int(), 10)
}

// parquetGroup is how many rows a row group has: what a writer holds in memory.
const parquetGroup = 1 << 18

// parquetTable is a Parquet file that takes chunk after chunk.
type parquetTable[Row any] struct {
	rows[Row]
	file  *os.File
	w     *parquet.GenericWriter[Row]
	list  []Row
	total int64
}

func (t rows[Row]) openParquet(folder, name string) (*parquetTable[Row], error) {
	f, err := os.Create(filepath.Join(folder, name))
	if err != nil {
		return nil, err
	}
	options := []parquet.WriterOption{
		parquet.Compression(&parquet.Snappy), parquet.MaxRowsPerRowGroup(parquetGroup),
		parquet.CreatedBy("warmby", t.p.Job.Version, ""),
	}
	for _, kv := range t.p.Job.provenance() {
		options = append(options, parquet.KeyValueMetadata(kv[0], kv[1]))
	}
	return &parquetTable[Row]{rows: t, file: f, w: parquet.NewGenericWriter[Row](f, options...)}, nil
}

func (t *parquetTable[Row]) encode(*batch.Chunk) encoded { return encoded{} }

func (t *parquetTable[Row]) write(c *batch.Chunk, _ encoded) error {
	t.list = t.list[:0]
	t.each(c, new(arena), func(row Row) { t.list = append(t.list, row) })
	n, err := t.w.Write(t.list)
	t.total += int64(n)
	return err
}

func (t *parquetTable[Row]) close() error {
	err := t.w.Close()
	if err == nil {
		err = t.file.Sync()
	}
	return errors.Join(err, t.file.Close())
}

func (t *parquetTable[Row]) count() int64 { return t.total }

// columnsOf returns the fields of a row, those of the structs embedded in it in
// their places.
func columnsOf(row any) []reflect.StructField {
	return slices.DeleteFunc(reflect.VisibleFields(reflect.TypeOf(row)), func(f reflect.StructField) bool { return f.Anonymous })
}

// fieldsOf returns the columns of a row as the data package tells them, from
// the tags of its fields: parquet has the name, unit and doc the rest.
func fieldsOf(row any) []fieldJSON {
	var list []fieldJSON
	for _, f := range columnsOf(row) {
		name, _, _ := strings.Cut(f.Tag.Get("parquet"), ",")
		kind := "number"
		switch f.Type.Kind() {
		case reflect.String:
			kind = "string"
		case reflect.Int32, reflect.Int64:
			kind = "integer"
		}
		list = append(list, fieldJSON{Name: name, Type: kind, Unit: f.Tag.Get("unit"), Description: f.Tag.Get("doc")})
	}
	return list
}
