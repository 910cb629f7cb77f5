# A new code: too short, guessable, unchanged, mistyped, taken; with duress.
> keys ok 3 12 739204 ok 12345 ok 123456 ok 111111 ok 739204 ok 739205 ok 739203 ok
  . List { page: 0 }
  . Who(ChangeCode, Nothing)
  . Who(ChangeCode, Tens(1))
  . Who(ChangeCode, Number(Number(12), 0))
  . Who(ChangeCode, Number(Number(12), 1))
  . Who(ChangeCode, Number(Number(12), 2))
  . Who(ChangeCode, Number(Number(12), 3))
  . Who(ChangeCode, Number(Number(12), 4))
  . Who(ChangeCode, Number(Number(12), 5))
  . Who(ChangeCode, Number(Number(12), 6))
  tally Counted(Number(12))
  record Asked { who: Number(12), task: ChangeCode, outcome: Plain }
  .
  tally Cleared(Number(12))
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(CodeLength(6)) })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(Guessable(EvenSteps)) })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(Guessable(FewDigits)) })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(Unchanged) })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(Unchanged) })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  Sound(Refused)
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: Some(Unchanged) })
  wakes in 60000 ms
> keys 842613 ok 842613 ok ok
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(ChangeCode), gist: Plain, trouble: None })
  edit Changed { by: Some(People { first: Number(12), second: None }), change: CodeChanged(Number(12)) }
  Sound(Accepted)
  Form(Done { change: CodeChanged(Number(12)), from: None })
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
  record WrongCode { who: Number(12) }
  Sound(Refused)
  WrongCode { left: 3 }
  wakes in 60000 ms
> keys 12 842613 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Released { people: People { first: Number(12), second: None }, outcome: Plain }
  tally Cleared(Number(12))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 50000 ms
> keys ok 3 12 842614 ok 596120 ok 596120 ok ok
  . List { page: 0 }
  . Who(ChangeCode, Nothing)
  . Who(ChangeCode, Tens(1))
  . Who(ChangeCode, Number(Number(12), 0))
  . Who(ChangeCode, Number(Number(12), 1))
  . Who(ChangeCode, Number(Number(12), 2))
  . Who(ChangeCode, Number(Number(12), 3))
  . Who(ChangeCode, Number(Number(12), 4))
  . Who(ChangeCode, Number(Number(12), 5))
  . Who(ChangeCode, Number(Number(12), 6))
  tally Counted(Number(12))
  record Asked { who: Number(12), task: ChangeCode, outcome: Duress }
  Alarm(Duress)
  .
  tally Cleared(Number(12))
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(ChangeCode), gist: Plain, trouble: None })
  edit Changed { by: Some(People { first: Number(12), second: None }), change: CodeChanged(Number(12)) }
  Sound(Accepted)
  Form(Done { change: CodeChanged(Number(12)), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Alarm(Quiet)
  Secured { supply: Good, clock: Valid }
  wakes in 86329000 ms
> keys 12 596120 ok
  . Entry(Tens(1))
  . Entry(Number(Number(12), 0))
  . Entry(Number(Number(12), 1))
  . Entry(Number(Number(12), 2))
  . Entry(Number(Number(12), 3))
  . Entry(Number(Number(12), 4))
  . Entry(Number(Number(12), 5))
  . Entry(Number(Number(12), 6))
  tally Counted(Number(12))
  record Released { people: People { first: Number(12), second: None }, outcome: Plain }
  tally Cleared(Number(12))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> wait 10
  6 s later:
  Drive(Block)
  record NotDrawn
  Secured { supply: Good, clock: Valid }
  wakes in 50000 ms
> keys ok 3 02 615024 ok 27 back 271849 ok back
  . List { page: 0 }
  . Who(ChangeCode, Nothing)
  . Who(ChangeCode, Tens(0))
  . Who(ChangeCode, Number(Number(2), 0))
  . Who(ChangeCode, Number(Number(2), 1))
  . Who(ChangeCode, Number(Number(2), 2))
  . Who(ChangeCode, Number(Number(2), 3))
  . Who(ChangeCode, Number(Number(2), 4))
  . Who(ChangeCode, Number(Number(2), 5))
  . Who(ChangeCode, Number(Number(2), 6))
  tally Counted(Number(2))
  record Asked { who: Number(2), task: ChangeCode, outcome: Plain }
  .
  tally Cleared(Number(2))
  Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(ChangeCode), field: Again, shown: Dots(0), trouble: None })
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> wait 61
  wakes in 86258000 ms
