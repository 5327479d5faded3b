// Package store is the memory of a project: everything that was said and answered, and
// everything that follows from it, in one SQLite file.
//
// Three ideas hold it together. The log (Entry) is only ever added to; an edit or a deletion is
// a further entry that points back. All state (Thing) is a named piece of JSON that changes only
// together with the entry that caused it, and every Change keeps what stood there before, so that
// Undo is exact. And whatever belongs to one message happens in one transaction (Store.Write):
// the message, its effects and the answer that waits to be sent are all there or none of them.
//
// What has been committed has been synced to the disk. The file must not lie on a network share,
// because SQLite's write-ahead log needs shared memory. While the file is open, the files beside
// it that end in -wal and -shm belong to it: copy a database with Store.Backup, never by hand.
package store
