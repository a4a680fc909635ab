package ask

// FileOrder is what the sequence of the tasks in the file is called when that is
// the only order of it.
const FileOrder = "file order"
