# Peer of the winter run: deSolve::lsoda on the same network and input. Prints the shortest time in ms and the last value.
suppressMessages({library(deSolve); library(jsonlite)})
case <- fromJSON(file("stdin"))
a <- -case$conductance / case$capacity
b <- case$drive / case$capacity
t <- (seq_along(case$outside) - 1) * case$stepS
u <- approxfun(t, case$outside, rule = 2)
slope <- function(time, y, parms) list(as.vector(a %*% y + b * u(time)))
best <- Inf
for (i in 1:3) {
  start <- proc.time()[["elapsed"]]
  out <- lsoda(rep(0, length(b)), t, slope, NULL, rtol = 1e-6, atol = 1e-6, hmax = case$stepS)
  best <- min(best, proc.time()[["elapsed"]] - start)
}
cat(best * 1000, out[nrow(out), ncol(out)], "\n")
