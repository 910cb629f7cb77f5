# A file whose start nobody can tell: no window to begin, or no clock.
> lock that nobody opens
  wakes in 86400000 ms
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
  Form(Files)
  wakes in 60000 ms
> file 8-17 8-18
  . Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 99431642 }, trouble: None })
  wakes in 60000 ms
> keys ok
  Sound(Refused)
  Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 99431642 }, trouble: Some(NoStart) })
  wakes in 60000 ms
> wait 61
  wakes in 539000 ms
> lock in use
  wakes in 86400000 ms
> clock lost
  tally ClockDoubt(Some(Steady(1803891600)))
  record ClockInvalid
  Secured { supply: Good, clock: Invalid }
  wakes in 2592000000 ms
> wait 10
  wakes in 2591990000 ms
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
  Form(Files)
  wakes in 60000 ms
> file 8-18
  . Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 14006481 }, trouble: None })
  wakes in 60000 ms
> keys ok
  Sound(Refused)
  Form(Confirm { topic: Task(Files), gist: File { version: 1, fingerprint: 14006481 }, trouble: Some(ClockUnsure) })
  wakes in 60000 ms
> wait 61
  wakes in 539000 ms
> keys 13 158260 ok
  Sound(Refused)
  wakes in 539000 ms
> bolt drawn
  Alarm(Tamper)
  record Forced
  wakes in 60000 ms
> keys ok ok ok ok 2 02 615024 ok
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  Sound(Refused)
  wakes in 60000 ms
> file 8-18
  wakes in 60000 ms
> keys ok
  Sound(Refused)
  wakes in 60000 ms
