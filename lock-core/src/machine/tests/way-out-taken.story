# A stuck lock: two ask, a third ends it; one alone; a boot begins it anew; being set up.
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
> wait 3600
  60 s later:
  WayOut { hours: 72 }
  3600 s later:
  WayOut { hours: 71 }
  wakes in 3600000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok
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
  wakes in 60000 ms
> wait 61
  60 s later:
  WayOut { hours: 71 }
  wakes in 3539000 ms
> keys 01 480317 ok
  . Entry(Tens(0))
  . Entry(Number(Number(1), 0))
  . Entry(Number(Number(1), 1))
  . Entry(Number(Number(1), 2))
  . Entry(Number(Number(1), 3))
  . Entry(Number(Number(1), 4))
  . Entry(Number(Number(1), 5))
  . Entry(Number(Number(1), 6))
  tally Counted(Number(1))
  record Refused { who: Number(1), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(1))
  Refused { why: Right, until: None }
  wakes in 60000 ms
> keys 02 615024 ok
  . Entry(Tens(0))
  . Entry(Number(Number(2), 0))
  . Entry(Number(Number(2), 1))
  . Entry(Number(Number(2), 2))
  . Entry(Number(Number(2), 3))
  . Entry(Number(Number(2), 4))
  . Entry(Number(Number(2), 5))
  . Entry(Number(Number(2), 6))
  tally Counted(Number(2))
  record Refused { who: Number(2), why: Right, outcome: Plain }
  Sound(Refused)
  tally Cleared(Number(2))
  tally WayOutOver
  record Changed { by: Some(People { first: Number(2), second: None }), change: WayOutEnded }
  Refused { why: Right, until: None }
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82678000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok
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
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 82617000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok back
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
  . Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok ok ok ok ok ok 2 01 480317 ok 02 615025 ok ok
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
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 0) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 1) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 2) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 3) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 4) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 5) })
  . Form(Second { topic: Task(WayOut), whom: Privileged, typed: Number(Number(2), 6) })
  tally Counted(Number(2))
  record Asked { who: Number(2), task: WayOut, outcome: Duress }
  Alarm(Duress)
  .
  tally Cleared(Number(2))
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  record Changed { by: Some(People { first: Number(1), second: Some(Number(2)) }), change: WayOutBegun }
  tally WayOut(People { first: Number(1), second: Some(Number(2)) })
  Sound(Accepted)
  Form(Done { change: WayOutBegun, from: None })
  wakes in 60000 ms
> wait 36000
  60 s later:
  Alarm(Quiet)
  WayOut { hours: 72 }
  3600 s later:
  WayOut { hours: 71 }
  7200 s later:
  WayOut { hours: 70 }
  10800 s later:
  WayOut { hours: 69 }
  14400 s later:
  WayOut { hours: 68 }
  18000 s later:
  WayOut { hours: 67 }
  21600 s later:
  WayOut { hours: 66 }
  25200 s later:
  WayOut { hours: 65 }
  28800 s later:
  WayOut { hours: 64 }
  32400 s later:
  WayOut { hours: 63 }
  36000 s later:
  WayOut { hours: 62 }
  wakes in 3600000 ms
> power cut
  Alarm(Duress)
  Drive(Block)
  record PoweredUp { unrecorded: 0 }
  WayOut { hours: 72 }
  wakes in 60000 ms
> wait 259199
  60 s later:
  Alarm(Quiet)
  3600 s later:
  WayOut { hours: 71 }
  7200 s later:
  WayOut { hours: 70 }
  10800 s later:
  WayOut { hours: 69 }
  14400 s later:
  WayOut { hours: 68 }
  18000 s later:
  WayOut { hours: 67 }
  21600 s later:
  WayOut { hours: 66 }
  25200 s later:
  WayOut { hours: 65 }
  28800 s later:
  WayOut { hours: 64 }
  32400 s later:
  WayOut { hours: 63 }
  36000 s later:
  WayOut { hours: 62 }
  39600 s later:
  WayOut { hours: 61 }
  43200 s later:
  WayOut { hours: 60 }
  46800 s later:
  WayOut { hours: 59 }
  50400 s later:
  WayOut { hours: 58 }
  54000 s later:
  WayOut { hours: 57 }
  57600 s later:
  WayOut { hours: 56 }
  61200 s later:
  WayOut { hours: 55 }
  64800 s later:
  WayOut { hours: 54 }
  68400 s later:
  WayOut { hours: 53 }
  72000 s later:
  WayOut { hours: 52 }
  75600 s later:
  WayOut { hours: 51 }
  79200 s later:
  WayOut { hours: 50 }
  82800 s later:
  WayOut { hours: 49 }
  86400 s later:
  WayOut { hours: 48 }
  90000 s later:
  WayOut { hours: 47 }
  93600 s later:
  WayOut { hours: 46 }
  97200 s later:
  WayOut { hours: 45 }
  100800 s later:
  WayOut { hours: 44 }
  104400 s later:
  WayOut { hours: 43 }
  108000 s later:
  WayOut { hours: 42 }
  111600 s later:
  WayOut { hours: 41 }
  115200 s later:
  WayOut { hours: 40 }
  118800 s later:
  WayOut { hours: 39 }
  122400 s later:
  WayOut { hours: 38 }
  126000 s later:
  WayOut { hours: 37 }
  129600 s later:
  WayOut { hours: 36 }
  133200 s later:
  WayOut { hours: 35 }
  136800 s later:
  WayOut { hours: 34 }
  140400 s later:
  WayOut { hours: 33 }
  144000 s later:
  WayOut { hours: 32 }
  147600 s later:
  WayOut { hours: 31 }
  151200 s later:
  WayOut { hours: 30 }
  154800 s later:
  WayOut { hours: 29 }
  158400 s later:
  WayOut { hours: 28 }
  162000 s later:
  WayOut { hours: 27 }
  165600 s later:
  WayOut { hours: 26 }
  169200 s later:
  WayOut { hours: 25 }
  172800 s later:
  WayOut { hours: 24 }
  176400 s later:
  WayOut { hours: 23 }
  180000 s later:
  WayOut { hours: 22 }
  183600 s later:
  WayOut { hours: 21 }
  187200 s later:
  WayOut { hours: 20 }
  190800 s later:
  WayOut { hours: 19 }
  194400 s later:
  WayOut { hours: 18 }
  198000 s later:
  WayOut { hours: 17 }
  201600 s later:
  WayOut { hours: 16 }
  205200 s later:
  WayOut { hours: 15 }
  208800 s later:
  WayOut { hours: 14 }
  212400 s later:
  WayOut { hours: 13 }
  216000 s later:
  WayOut { hours: 12 }
  219600 s later:
  WayOut { hours: 11 }
  223200 s later:
  WayOut { hours: 10 }
  226800 s later:
  WayOut { hours: 9 }
  230400 s later:
  WayOut { hours: 8 }
  234000 s later:
  WayOut { hours: 7 }
  237600 s later:
  WayOut { hours: 6 }
  241200 s later:
  WayOut { hours: 5 }
  244800 s later:
  WayOut { hours: 4 }
  248400 s later:
  WayOut { hours: 3 }
  252000 s later:
  WayOut { hours: 2 }
  255600 s later:
  WayOut { hours: 1 }
  wakes in 1000 ms
> wait 2
  1 s later:
  record Changed { by: None, change: WayOut }
  tally SettingUp
  SettingUp
  wakes in 86399000 ms
> keys ok ok 1 01 480317 ok 20 ok 3 9 842613 ok 842613 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 20, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(20), role: Keyholder, opens: No, follows: Always }, trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Enrolled(Number(20), Keyholder) }
  Sound(Accepted)
  tally Cleared(Number(20))
  tally SetUp
  Form(Done { change: Enrolled(Number(20), Keyholder), from: None })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86338000 ms
> keys 20 842613 ok
  . Entry(Tens(2))
  . Entry(Number(Number(20), 0))
  . Entry(Number(Number(20), 1))
  . Entry(Number(Number(20), 2))
  . Entry(Number(Number(20), 3))
  . Entry(Number(Number(20), 4))
  . Entry(Number(Number(20), 5))
  . Entry(Number(Number(20), 6))
  tally Counted(Number(20))
  record Released { people: People { first: Number(20), second: None }, outcome: Plain }
  tally Cleared(Number(20))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1804190705))
  Open { late: No }
  wakes in 60000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(0) }
  Secured { supply: Good, clock: Valid }
  wakes in 60000 ms
> keys ok ok 1 01 480317 ok 21 ok 3 9 593018 ok 593018 ok ok
  . List { page: 0 }
  . List { page: 1 }
  . Who(Enrol, Nothing)
  . Who(Enrol, Tens(0))
  . Who(Enrol, Number(Number(1), 0))
  . Who(Enrol, Number(Number(1), 1))
  . Who(Enrol, Number(Number(1), 2))
  . Who(Enrol, Number(Number(1), 3))
  . Who(Enrol, Number(Number(1), 4))
  . Who(Enrol, Number(Number(1), 5))
  . Who(Enrol, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Enrol, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 2, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Number, shown: Digits { value: 21, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Role, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: NewCode, shown: Dots(6), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(0), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(1), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(2), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(3), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(4), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(5), trouble: None })
  . Form(Ask { topic: Task(Enrol), field: Again, shown: Dots(6), trouble: None })
  . Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(21), role: Keyholder, opens: No, follows: Always }, trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(Enrol), gist: Row { number: Number(21), role: Keyholder, opens: No, follows: Always }, trouble: Some(NoStart) })
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86277000 ms
> lock of one warden
  wakes in 86400000 ms
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
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: None })
  Sound(Refused)
  Form(Confirm { topic: Task(WayOut), gist: Plain, trouble: Some(NotStuck) })
  Sound(Refused)
  wakes in 60000 ms
> wait 61
  60 s later:
  Secured { supply: Good, clock: Valid }
  wakes in 86339000 ms
> keys 13 158260 ok
  . Entry(Tens(1))
  . Entry(Number(Number(13), 0))
  . Entry(Number(Number(13), 1))
  . Entry(Number(Number(13), 2))
  . Entry(Number(Number(13), 3))
  . Entry(Number(Number(13), 4))
  . Entry(Number(Number(13), 5))
  . Entry(Number(Number(13), 6))
  tally Counted(Number(13))
  record Released { people: People { first: Number(13), second: None }, outcome: Plain }
  tally Cleared(Number(13))
  Drive(Free)
  Sound(Accepted)
  Released { supply: Good }
  wakes in 6000 ms
> bolt drawn
  record Opened
  tally Brought(Steady(1803891661))
  Open { late: No }
  wakes in 60000 ms
> keys ok ok 2 01 480317 ok 13 ok ok ok
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
  . List { page: 0 }
  wakes in 20000 ms
> keys ok ok ok 1 01 480317 ok 12 ok ok ok
  . List { page: 1 }
  . List { page: 2 }
  . List { page: 3 }
  . Who(Numbers, Nothing)
  . Who(Numbers, Tens(0))
  . Who(Numbers, Number(Number(1), 0))
  . Who(Numbers, Number(Number(1), 1))
  . Who(Numbers, Number(Number(1), 2))
  . Who(Numbers, Number(Number(1), 3))
  . Who(Numbers, Number(Number(1), 4))
  . Who(Numbers, Number(Number(1), 5))
  . Who(Numbers, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: Numbers, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Numbers { rows: [Some(Row { number: Number(1), role: Warden, suspended: false }), Some(Row { number: Number(12), role: Keyholder, suspended: false }), Some(Row { number: Number(13), role: Keyholder, suspended: true })] })
  .
  Sound(Key)
  .
  wakes in 60000 ms
> wait 61
  60 s later:
  Open { late: No }
  wakes in 86278000 ms
> keys ok ok ok 1 01 480317 ok 13 ok ok ok
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
  . Form(Ask { topic: Task(Remove), field: Number, shown: Digits { value: 13, count: 2 }, trouble: None })
  . Form(Confirm { topic: Task(Remove), gist: Holder(Number(13)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: Removed(Number(13)) }
  Sound(Accepted)
  Form(Done { change: Removed(Number(13)), from: None })
  . List { page: 0 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 86217000 ms
> keys ok ok ok 3 01 480317 ok 01 ok 2 ok ok ok
  . List { page: 0 }
  . List { page: 1 }
  . List { page: 2 }
  . Who(ChooseTimetable, Nothing)
  . Who(ChooseTimetable, Tens(0))
  . Who(ChooseTimetable, Number(Number(1), 0))
  . Who(ChooseTimetable, Number(Number(1), 1))
  . Who(ChooseTimetable, Number(Number(1), 2))
  . Who(ChooseTimetable, Number(Number(1), 3))
  . Who(ChooseTimetable, Number(Number(1), 4))
  . Who(ChooseTimetable, Number(Number(1), 5))
  . Who(ChooseTimetable, Number(Number(1), 6))
  tally Counted(Number(1))
  record Asked { who: Number(1), task: ChooseTimetable, outcome: Plain }
  .
  tally Cleared(Number(1))
  Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 0, count: 1 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Number, shown: Digits { value: 1, count: 2 }, trouble: None })
  . Form(Ask { topic: Task(ChooseTimetable), field: Timetable, shown: Digits { value: 0, count: 0 }, trouble: None })
  . Form(Confirm { topic: Task(ChooseTimetable), gist: Follows(Number(1), Timetable(B)), trouble: None })
  edit Changed { by: Some(People { first: Number(1), second: None }), change: TimetableChosen(Number(1), Timetable(B)) }
  Sound(Accepted)
  Form(Done { change: TimetableChosen(Number(1), Timetable(B)), from: None })
  . List { page: 0 }
  . List { page: 1 }
  wakes in 20000 ms
> wait 61
  20 s later:
  Open { late: No }
  wakes in 86156000 ms
> wait 61
  wakes in 86095000 ms
> bolt thrown
  Drive(Block)
  record Secured { open_for: Seconds(244) }
  Secured { supply: Good, clock: Valid }
  wakes in 86095000 ms
