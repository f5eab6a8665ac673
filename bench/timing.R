# timing.R: the median time of a few runs, printed as bench/pair.sh reads it.
timing <- function(what, run, runs = 5) {
  seconds <- sapply(seq_len(runs), function(i) {
    gc(FALSE)
    start <- Sys.time()
    run()
    as.numeric(difftime(Sys.time(), start, units = "secs"))
  })
  cat(sprintf("time\t%s\t%.9f\n", what, median(seconds)))
}
