# Values: taken, out of bounds, already so, against another; wider ones wait.
> keys ok ok ok ok ok 1 01 480317 ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> keys 1 9 ok 6 ok 7 ok ok
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 9, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 0, count: 0 }, trouble: Some(OutOfBounds) })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 6, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 0, count: 0 }, trouble: Some(Already) })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 0 }, shown: Digits { value: 7, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 0, value: 7 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(0, 7) }
  Sound(Accepted)
  Form(Done { change: PolicySet(0, 7), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys ok ok ok ok ok 1 01 480317 ok 2 3 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 1 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 1, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(1, 3) }
  Sound(Accepted)
  Form(Done { change: PolicySet(1, 3), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86278000 ms
> keys ok ok ok ok ok 1 01 480317 ok 3 30 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 2 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 2 }, shown: Digits { value: 30, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 2, value: 30 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(2, 1800) }
  Sound(Accepted)
  Form(Done { change: PolicySet(2, 1800), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86217000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok 1 5 ok 20 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 5, count: 1 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 0, count: 0 }, trouble: Some(AgainstAnother) })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 20, count: 2 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 3 }, shown: Digits { value: 0, count: 0 }, trouble: Some(AgainstAnother) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86156000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok 2 100 ok 10 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 10, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 100, count: 3 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: Some(OutOfBounds) })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 10, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 10 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 600) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 600), from: None })
  wakes in 60000 ms
> keys 12 739204 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 10 }
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 9 }
  wakes in 59000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok 2 2 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 4 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 4, value: 2 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(4, 120) }
  Sound(Accepted)
  Form(Done { change: PolicySet(4, 120), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 8 }
  wakes in 58000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok 3 2 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 5 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 5 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 5, value: 2 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(5, 120) }
  Sound(Accepted)
  Form(Done { change: PolicySet(5, 120), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 7 }
  wakes in 57000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok 1 20 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 6 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 6 }, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 6 }, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 6, value: 20 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(6, 20) }
  Sound(Accepted)
  Form(Done { change: PolicySet(6, 20), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 6 }
  wakes in 56000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok 2 90 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 7 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 7 }, shown: Digits { value: 9, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 7 }, shown: Digits { value: 90, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 7, value: 90 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(7, 90) }
  Sound(Accepted)
  Form(Done { change: PolicySet(7, 90), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 5 }
  wakes in 55000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok 3 5 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 8 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 8 }, shown: Digits { value: 5, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 8, value: 5 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(8, 5) }
  Sound(Accepted)
  Form(Done { change: PolicySet(8, 5), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 4 }
  wakes in 29000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok ok 1 5000 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 9 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 9 }, shown: Digits { value: 5, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 9 }, shown: Digits { value: 50, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 9 }, shown: Digits { value: 500, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 9 }, shown: Digits { value: 5000, count: 4 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 9, value: 5000 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(9, 5000) }
  Sound(Accepted)
  Form(Done { change: PolicySet(9, 5000), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 3 }
  wakes in 29000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok ok 2 5000 ok 4300 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 5, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 50, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 500, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 5000, count: 4 }, trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 0, count: 0 }, trouble: Some(AgainstAnother) })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 4, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 43, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 430, count: 3 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 10 }, shown: Digits { value: 4300, count: 4 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 10, value: 4300 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(10, 4300) }
  Sound(Accepted)
  Form(Done { change: PolicySet(10, 4300), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 2 }
  wakes in 29000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok ok ok 1 0 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 12 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 12 }, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 12, value: 0 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(12, 0) }
  Sound(Accepted)
  Form(Done { change: PolicySet(12, 0), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Waiting { minutes: 1 }
  wakes in 29000 ms
> keys 12 739205 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 2 }
  wakes in 51000 ms
> wait 61
  51 s later:
  Claimable { minutes: 2 }
  wakes in 29000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok ok ok 2 1 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 13 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 13 }, shown: Digits { value: 1, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 13, value: 1 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(13, 1) }
  Sound(Accepted)
  Form(Done { change: PolicySet(13, 1), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Claimable { minutes: 1 }
  wakes in 29000 ms
> keys ok ok 1 03 927406 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(3), 0))
  . Who(Enrol, Number(Number(3), 1))
  . Who(Enrol, Number(Number(3), 2))
  . Who(Enrol, Number(Number(3), 3))
  . Who(Enrol, Number(Number(3), 4))
  . Who(Enrol, Number(Number(3), 5))
  . Who(Enrol, Number(Number(3), 6))
  tally Counted(Number(3))
  record Refused { who: Number(3), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(3))
  Refused { why: Right, until: None }
  wakes in 49000 ms
> wait 61
  49 s later:
  record Lapsed
  Secured { supply: Good, clock: Valid }
  wakes in 29000 ms
> keys ok ok ok ok ok 1 01 480317 ok ok ok ok ok 2 3 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . List { page: 4 }
  . Who(SetPolicy, Nothing)
  . Who(SetPolicy, Tens(0))
  . Who(SetPolicy, Number(Number(1), 0))
  . Who(SetPolicy, Number(Number(1), 1))
  . Who(SetPolicy, Number(Number(1), 2))
  . Who(SetPolicy, Number(Number(1), 3))
  . Who(SetPolicy, Number(Number(1), 4))
  . Who(SetPolicy, Number(Number(1), 5))
  . Who(SetPolicy, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: SetPolicy, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(SetPolicy), field: Key { page: 0 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 1 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 2 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 3 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Key { page: 4 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 13 }, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(SetPolicy), field: Value { key: 13 }, shown: Digits { value: 3, count: 1 }, trouble: None })
  . Form(Confirm { topic: Task(SetPolicy), gist: Value { key: 13, value: 3 }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: PolicySet(13, 3) }
  Sound(Accepted)
  Form(Done { change: PolicySet(13, 3), from: Some(Stamp { date: Date(20879), minute: Minute(480) }) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 29000 ms
> wait 90000
  86156 s later:
  tally Faded(Number(12))
  wakes in 81763000 ms
> keys 12 739204 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record DelayStarted { people: People { first: Number(12), second: None }, outcome: Plain }
  Sound(Accepted)
  tally Cleared(Number(12))
  Waiting { minutes: 2 }
  wakes in 60000 ms
> power cut
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  Secured { supply: Good, clock: Valid }
  wakes in 90000 ms
> keys ok ok 1 03 927406 ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(3), 0))
  . Who(Enrol, Number(Number(3), 1))
  . Who(Enrol, Number(Number(3), 2))
  . Who(Enrol, Number(Number(3), 3))
  . Who(Enrol, Number(Number(3), 4))
  . Who(Enrol, Number(Number(3), 5))
  . Who(Enrol, Number(Number(3), 6))
  tally Counted(Number(3))
  record Asked { who: Number(3), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(3))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 29000 ms
