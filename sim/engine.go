package sim

// Engine numbers what the engines make of a drill and a seed. It is raised by
// whoever changes a result, be it a millisecond: batches are put together, and
// gone on with, only under one number. Builds without a version are told apart
// by nothing else.
const Engine = 4
