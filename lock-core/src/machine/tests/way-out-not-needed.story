# A way out runs, and the clock that is set lets somebody open: it ends without effect.
> lock that nobody opens
  wakes in 86400000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . List { page: 5 }
  . Who(WayOut, Nothing)
  . Who(WayOut, Tens(0))
  . Who(WayOut, Number(Number(1), 0))
  . Who(WayOut, Number(Number(1), 1))
  . Who(WayOut, Number(Number(1), 2))
  . Who(WayOut, Number(Number(1), 3))
  . Who(WayOut, Number(Number(1), 4))
  . Who(WayOut, Number(Number(1), 5))
  . Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Tens(0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 1) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 2) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 3) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 4) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 5) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: WayOut, outcome: Plain }
  .
  tally Cleared(Number(4))
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: Some(Number(4)) }), change: WayOutBegun }
  tally WayOut(People { first: Number(1), second: Some(Number(4)) })
  Sound(Accepted)
  Form(Done { change: WayOutBegun, from: None })
  wakes in 60000 ms
> wait 10
  wakes in 50000 ms
> keys ok ok ok ok 2 02 615024 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Files, Nothing)
  . Who(Files, Tens(0))
  . Who(Files, Number(Number(2), 0))
  . Who(Files, Number(Number(2), 1))
  . Who(Files, Number(Number(2), 2))
  . Who(Files, Number(Number(2), 3))
  . Who(Files, Number(Number(2), 4))
  . Who(Files, Number(Number(2), 5))
  . Who(Files, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: Files, outcome: Plain }
  .
  tally Cleared(Number(2))
  tally WayOutOver
  record Changed { by: Some(People { first: Number(2), second: None }), change: WayOutEnded }
  Form(Files)
  wakes in 60000 ms
> wait 61
  wakes in 539000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  wakes in 539000 ms
> keys ok ok ok ok 2 04 306518 ok
  wakes in 539000 ms
> wait 259300
  539 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86229000 ms
