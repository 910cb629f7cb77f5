# Nobody is stuck, so there is no way out; a lock that comes to be stuck has one.
> keys ok ok ok ok ok ok 2 01 480317 ok 04 306518 ok ok
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  List { page: 2 }
  Sound(Key)
  List { page: 3 }
  Sound(Key)
  List { page: 4 }
  Sound(Key)
  List { page: 5 }
  Sound(Key)
  Who(WayOut, Nothing)
  Sound(Key)
  Who(WayOut, Tens(0))
  Sound(Key)
  Who(WayOut, Number(Number(1), 0))
  Sound(Key)
  Who(WayOut, Number(Number(1), 1))
  Sound(Key)
  Who(WayOut, Number(Number(1), 2))
  Sound(Key)
  Who(WayOut, Number(Number(1), 3))
  Sound(Key)
  Who(WayOut, Number(Number(1), 4))
  Sound(Key)
  Who(WayOut, Number(Number(1), 5))
  Sound(Key)
  Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Tens(0) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 0) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 1) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 2) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 3) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 4) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 5) })
  Sound(Key)
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(4), 6) })
  tally Counted(Number(4))
  record Asked { who: Number(4), task: WayOut, outcome: Plain }
  Sound(Key)
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
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  List { page: 2 }
  Sound(Key)
  List { page: 3 }
  Sound(Key)
  List { page: 4 }
  Sound(Key)
  List { page: 5 }
  Sound(Key)
  Who(WayOut, Nothing)
  Sound(Key)
  Who(WayOut, Tens(0))
  Sound(Key)
  Who(WayOut, Number(Number(1), 0))
  Sound(Key)
  Who(WayOut, Number(Number(1), 1))
  Sound(Key)
  Who(WayOut, Number(Number(1), 2))
  Sound(Key)
  Who(WayOut, Number(Number(1), 3))
  Sound(Key)
  Who(WayOut, Number(Number(1), 4))
  Sound(Key)
  Who(WayOut, Number(Number(1), 5))
  Sound(Key)
  Who(WayOut, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: WayOut, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Second { topic: Task(WayOut), whom: Privileged, typed: Nothing })
  Sound(Key)
  Form(Confirm { topic: Task(WayOut), gist: Alone, trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(WayOut), gist: Alone, trouble: Some(NotStuck) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok 2 01 480317 ok 13 ok ok
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  Who(Suspend, Nothing)
  Sound(Key)
  Who(Suspend, Tens(0))
  Sound(Key)
  Who(Suspend, Number(Number(1), 0))
  Sound(Key)
  Who(Suspend, Number(Number(1), 1))
  Sound(Key)
  Who(Suspend, Number(Number(1), 2))
  Sound(Key)
  Who(Suspend, Number(Number(1), 3))
  Sound(Key)
  Who(Suspend, Number(Number(1), 4))
  Sound(Key)
  Who(Suspend, Number(Number(1), 5))
  Sound(Key)
  Who(Suspend, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Suspend, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(Suspend), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  Sound(Key)
  Form(Confirm { topic: Task(Suspend), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Suspended(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Suspended(Number(13)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
> keys ok ok ok 1 01 480317 ok 12 ok ok
  Sound(Key)
  List { page: 0 }
  Sound(Key)
  List { page: 1 }
  Sound(Key)
  List { page: 2 }
  Sound(Key)
  Who(Remove, Nothing)
  Sound(Key)
  Who(Remove, Tens(0))
  Sound(Key)
  Who(Remove, Number(Number(1), 0))
  Sound(Key)
  Who(Remove, Number(Number(1), 1))
  Sound(Key)
  Who(Remove, Number(Number(1), 2))
  Sound(Key)
  Who(Remove, Number(Number(1), 3))
  Sound(Key)
  Who(Remove, Number(Number(1), 4))
  Sound(Key)
  Who(Remove, Number(Number(1), 5))
  Sound(Key)
  Who(Remove, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Remove, outcome: Plain }
  Sound(Key)
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 1, count: 1 }, trouble: None })
  Sound(Key)
  Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 12, count: 2 }, trouble: None })
  Sound(Key)
  Form(Confirm { topic: Task(Remove), gist: Holder(Number(12)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Removed(Number(12)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(12)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
