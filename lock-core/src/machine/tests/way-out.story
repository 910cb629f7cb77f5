# Nobody is stuck, so there is no way out; a lock that comes to be stuck has one.
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
  Sound(Refused)
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: Some(NotStuck) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok ok ok
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
  . Form(Confirm { topic: Task(WayOut), gist: Alone, trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(WayOut), gist: Alone, trouble: Some(NotStuck) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok 2 01 480317 ok 13 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Suspend, Nothing)
  . Who(Suspend, Tens(0))
  . Who(Suspend, Number(Number(1), 0))
  . Who(Suspend, Number(Number(1), 1))
  . Who(Suspend, Number(Number(1), 2))
  . Who(Suspend, Number(Number(1), 3))
  . Who(Suspend, Number(Number(1), 4))
  . Who(Suspend, Number(Number(1), 5))
  . Who(Suspend, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Suspend), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
> keys ok ok ok 1 01 480317 ok 12 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(Remove, Nothing)
  . Who(Remove, Tens(0))
  . Who(Remove, Number(Number(1), 0))
  . Who(Remove, Number(Number(1), 1))
  . Who(Remove, Number(Number(1), 2))
  . Who(Remove, Number(Number(1), 3))
  . Who(Remove, Number(Number(1), 4))
  . Who(Remove, Number(Number(1), 5))
  . Who(Remove, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Remove, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(12)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Removed(Number(12)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(12)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
