"""Writes the drills from the short form below: `python3 make.py`. Only the .toml files matter."""
import os, re
OUT = os.path.dirname(os.path.abspath(__file__))
INDEX = []
def drill(name, title, checks, lock, start, text, fresh=None, site="../harbour-bakery.toml"):
    assert len(title) <= 80, (name, len(title))
    out = f'# {checks}\ntitle = "{title}"\nsite = "{site}"\nlock = "{lock}"\n'
    if fresh: out += f'fresh = {fresh}\n'
    out += f'start = {start}\n'
    for line in text.strip().splitlines():
        line = line.strip()
        if not line: continue
        times = 1
        m = re.match(r'(\d+)x (.*)', line)
        if m: times, line = int(m[1]), m[2]
        act, _, exp = (' ' + line).partition(' => ')
        step = '\n[[step]]\n'
        act = act.strip()
        if act.startswith('say '):
            said, _, act = act[4:].partition(' :: ')
            step += f'say = "{said}"\n'
        act = act.strip()
        if act:
            word, _, arg = act.partition(' ')
            if word == 'k': step += f'keys = "{arg}"\n'
            elif word in ('until', 'inhibit'): step += f'{word} = {arg}\n'
            elif arg.startswith('{'): step += f'{word} = {arg}\n'
            else: step += f'{word} = "{arg}"\n'
        if exp:
            parts = []
            for key, value in re.findall(r'(\w+)=("[^"]*"|\[[^\]]*\]|\S+)', exp):
                if value.startswith('['):
                    kinds = [k.strip() for k in value[1:-1].split(',') if k.strip()]
                    value = '[' + ', '.join(f'"{k}"' for k in kinds) + ']'
                elif key in ('penalty',) or value.startswith('"'): pass
                else: value = f'"{value}"'
                parts.append(f'{key} = {value}')
            step += 'expect = { ' + ', '.join(parts) + ' }\n'
        out += step * times
    open(f'{OUT}/{name}.toml', 'w').write(out)
    INDEX.append(f'{name}.toml: {checks}')

MON = '2027-03-01T'
OPEN01 = 'k 01 480317 ok => state=released audit=[released]\nbolt draw => state=open audit=[opened]\n'
GUESSED = '[wrong-code, wrong-code, wrong-code, wrong-code, penalty]'
def BAR(n):
    four = f'k {n} 000000 ok {n} 000000 ok {n} 000000 ok {n} 000000 ok => penalty=true audit={GUESSED}\n'
    return f'say Somebody guesses at {n}, a hundred times. :: {four}' + 'wait 40m\n' + 24 * (four + 'wait 40m\n') + '=> state=secured penalty=false\n'

# ---- two people are two
drill('r03-two-people-a-warden-is-not-two', 'R3: a warden enrols no steward alone', 'the second person to enrol a steward is not who asks (same-person ends the dialogue); another warden is', 'till', MON+'09:00:00', '''
say Maeve wants a steward whose code she knows. :: k ok ok 1 01 480317 ok => audit=[asked]
k 51 ok 5 528406 ok 528406 ok => state=secured audit=[]
say She is asked for somebody else, and types her own code. :: k 01 480317 ok => audit=[refused-same-person]
k ok ok 1 01 480317 ok 51 ok 5 528406 ok 528406 ok => audit=[asked]
say With the other warden it is done. :: k 02 615928 ok => audit=[asked]
k ok => audit=[enrolled]
k ok 2 51 528406 ok => audit=[status]
''')
drill('r03-two-people-a-keyholder-is-no-second', 'R3: a keyholder is no second person for a warden', 'a second person who is not privileged ends the dialogue with refused-right', 'till', MON+'09:00:00', '''
k ok ok ok 1 01 480317 ok 02 ok => audit=[asked]
k 12 739204 ok => audit=[refused-right]
k 02 615928 ok => audit=[refused-right]
say The dialogue is over, and nobody is removed: she reads the status still. :: k ok 2 02 615928 ok => audit=[status]
''')
drill('r03-two-people-not-whom-it-is-about', 'R3: who is to be removed does not agree for two', 'the second person is neither who asks nor whom it is about; the steward is one', 'till', MON+'09:00:00', '''
k ok ok ok 1 01 480317 ok 02 ok => audit=[asked]
k 02 615928 ok => audit=[refused-right]
k ok ok ok 1 01 480317 ok 02 ok => audit=[asked]
k 50 805231 ok => audit=[asked]
k ok => audit=[removed]
k ok 2 02 615928 ok => audit=[wrong-code]
''')
drill('r03-two-people-the-last-pair-needs-the-open-lock', 'R3: without another able person it takes the opened lock', 'suspending the steward while the other warden is suspended: refused with the bolt thrown, done with it drawn', 'till', MON+'09:00:00', '''
k ok ok 2 01 480317 ok 02 ok => audit=[asked]
k 50 805231 ok ok => audit=[asked, suspended]
say Nobody else is able now: the bolt is thrown, so it is refused. :: k ok ok 2 01 480317 ok 50 ok ok => audit=[asked]
k back back => state=secured audit=[]
''' + OPEN01 + '''
k ok ok 2 01 480317 ok 50 ok ok => audit=[asked, suspended]
''')
drill('r03-two-people-under-dual-control', 'R3: with dual control nobody adds an opener alone', 'vault: enrolling a keyholder asks for another privileged person; a keyholder is none', 'vault', MON+'09:00:00', '''
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok => audit=[asked]
k 12 739204 ok => audit=[refused-right]
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok => audit=[asked]
k 02 615928 ok ok => audit=[asked, enrolled]
say The row waits, as ever. :: k 15 528406 ok => audit=[refused-closed]
until 2027-03-01T13:30:00
k 15 528406 ok => state=secured audit=[first-of-two]
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-two-people-a-clock-set-by-one-warden-alone', 'R3: the clock is not set by one person with two numbers', 'a steward cannot set the clock by an hour with a keyholder; a warden beside them can', 'till', MON+'09:00:00', '''
k ok ok ok ok 3 50 805231 ok 01032027 ok 1000 ok => audit=[asked]
k 50 805231 ok => audit=[refused-same-person]
k ok ok ok ok 3 50 805231 ok 01032027 ok 1000 ok => audit=[asked]
k 02 615928 ok ok => audit=[asked, clock-set]
k 12 739204 ok => state=secured audit=[refused-settling]
''')
# ---- barred
drill('keypad-restore-a-barred-keyholder', 'A barred number is restored with a new code', 'restore of a number whose total is 100 asks for a new code, clears the count, and widens from the next window on', 'till', MON+'08:45:00', BAR('12') + '''
until 2027-03-02T02:00:00
k 12 739204 ok => state=secured screen="Barred" audit=[refused-barred]
k ok ok 3 01 480317 ok 12 ok 528406 ok 528406 ok ok => audit=[asked, restored]
k 12 528406 ok => state=secured audit=[refused-closed]
until 2027-03-02T08:30:00
k 12 528406 ok => state=released audit=[released]
''')
drill('r11-a-barred-warden-has-no-way-in-on-the-first-day', 'R11: on the first day after a boot a barred warden is out', 'no way in on the first day of uptime, with the bolt thrown and nobody beside', 'till', MON+'08:45:00', BAR('02') + '''
until 2027-03-02T08:00:00
k ok 2 02 615928 ok => state=secured screen="Barred"
''')
drill('r11-a-barred-warden-tries-four-times-a-day', 'R11: from the second day on a barred warden has four tries', 'the first four tries of a day of uptime are a way in; a right code clears the count', 'till', MON+'08:45:00', BAR('02') + '''
until 2027-03-02T08:46:00
say Twenty-four hours after the boot a new day begins. :: k ok ok ok ok 1 02 615928 ok => screen="01 warden"
k back
say The right code has cleared the count: at once again. :: k ok ok ok ok 1 02 615928 ok => screen="01 warden"
''')
drill('r11-a-barred-warden-beside-another', 'R11: a barred warden gets in beside a steward, within the limit', 'within dual_limit (exclusive) of another privileged person\'s right code a barred warden is judged', 'till', MON+'08:45:00', BAR('02') + '''
until 2027-03-02T03:00:00
k ok 2 50 805231 ok => state=secured
say Sixty seconds later it is over. :: wait 60s
k ok 2 02 615928 ok => screen="Barred"
k ok 2 50 805231 ok => state=secured
wait 59s
k ok ok ok ok 1 02 615928 ok => screen="01 warden"
''')
drill('r11-a-barred-warden-at-the-drawn-bolt', 'R11: with the bolt drawn a barred warden is let in', 'the drawn bolt is a way in', 'till', MON+'08:45:00', BAR('02') + '''
until 2027-03-02T03:00:00
k 01 480317 ok => state=released
bolt draw => state=open
k ok ok ok ok 1 02 615928 ok => screen="01 warden"
''')
drill('r11-a-stranger-shuts-no-warden-out-by-day', 'R11: four wrong codes a day are all that a stranger can use up', 'four wrong tries on a barred warden use that day up; on the next day the warden is let in', 'till', MON+'08:45:00', BAR('02') + '''
until 2027-03-02T09:00:00
k 02 000000 ok 02 000000 ok 02 000000 ok 02 000000 ok => penalty=true
wait 60m => penalty=false
k ok ok ok ok 1 02 615928 ok => screen="Barred"
until 2027-03-03T09:00:00
k ok ok ok ok 1 02 615928 ok => screen="01 warden"
''')
# ---- weights and steps
drill('r02-one-slip-every-23-hours-is-forgiven', 'R2: a slip every twenty-three hours never starts a penalty', 'each wrong try weighs 24 h of uptime, so that at most two count at once', 'till', MON+'08:45:00', '9x k 77 000000 ok => penalty=false audit=[wrong-code]\n'.replace('9x ','') + 9*'wait 23h\nk 77 000000 ok => penalty=false audit=[wrong-code]\n')
drill('r02-four-slips-within-a-day-are-not', 'R2: the fourth wrong code within a day starts a penalty', 'three wrong tries at 0, 8 and 16 h and one a second before 24 h: a penalty', 'till', MON+'08:45:00', '''
k 77 000000 ok => audit=[wrong-code]
wait 8h
k 78 000000 ok => audit=[wrong-code]
wait 8h
k 79 000000 ok => audit=[wrong-code]
until 2027-03-02T08:44:59
k 80 000000 ok => penalty=true audit=[wrong-code, penalty]
''')
drill('r02-the-first-slip-is-forgiven-on-the-second', 'R2: a wrong try weighs no more when its twenty-four hours are over', 'the same with the fourth at 24 h: the first has faded before it', 'till', MON+'08:45:00', '''
k 77 000000 ok => audit=[wrong-code]
wait 8h
k 78 000000 ok => audit=[wrong-code]
wait 8h
k 79 000000 ok => audit=[wrong-code]
until 2027-03-02T08:45:00
k 80 000000 ok => penalty=false audit=[wrong-code]
''')
drill('r02-a-boot-begins-the-day-of-a-slip-anew', 'R2: a lock that is powered off forgets no wrong code sooner', 'a boot begins the 24 h of each share anew', 'till', MON+'08:45:00', '''
k 77 000000 ok 78 000000 ok 79 000000 ok => penalty=false audit=[wrong-code, wrong-code, wrong-code]
wait 23h
power cut
power restore => audit=[powered-up]
wait 23h
k 80 000000 ok => penalty=true audit=[wrong-code, penalty]
''')
drill('r02-a-day-after-a-boot-the-slips-are-forgiven', 'R2: twenty-four hours after a boot what was wrong before it is over', 'all three shares fade at one moment, in steps that follow at once', 'till', MON+'08:45:00', '''
k 77 000000 ok 78 000000 ok 79 000000 ok => penalty=false
wait 1h
power cut
power restore
wait 24h
k 80 000000 ok 81 000000 ok 82 000000 ok => penalty=false
''')
FOUR = 'k 77 000000 ok 77 000000 ok 77 000000 ok 77 000000 ok => penalty=true\n'
drill('r02-a-second-penalty-within-a-day-is-longer', 'R2: within a day of a penalty the next one is twice as long', 'ten minutes for the second penalty, 23 h after the first ended', 'till', MON+'08:45:00', FOUR + '''
wait 299s => penalty=true
wait 1s => penalty=false
wait 23h
''' + FOUR + '''
wait 599s => penalty=true
wait 1s => penalty=false
''')
drill('r02-a-day-after-a-penalty-its-step-falls', 'R2: a day without a penalty makes the next one short again', 'the step falls to 0 24 h of uptime after the end: five minutes again', 'till', MON+'08:45:00', FOUR + '''
wait 300s => penalty=false
wait 24h
''' + FOUR + '''
wait 299s => penalty=true
wait 1s => penalty=false
''')
drill('r02-a-boot-begins-the-easing-anew', 'R2: pulling the battery brings no shorter penalty', 'a boot begins the 24 h of easing anew', 'till', MON+'08:45:00', FOUR + '''
wait 300s => penalty=false
wait 23h
power cut
power restore
wait 2h
''' + FOUR + '''
wait 300s => penalty=true
wait 300s => penalty=false
''')
# ---- hold-shut
drill('r03-hold-shut-asks-first', 'R3: a hold-shut asks before it is set', 'hold-shut says until when and waits for OK; back leaves everything as it was', 'till', MON+'16:00:00', '''
k ok 1 12 739204 ok => state=secured screen="08:30" audit=[asked]
k back => audit=[]
k 13 918053 ok => state=released audit=[released]
wait 10s => audit=[not-drawn]
k ok 1 12 739204 ok ok => audit=[asked, held-shut]
k 01 480317 ok => state=secured audit=[refused-held-shut]
''')
drill('r03-hold-shut-keeps-its-length', 'R3: setting the clock forward shortens no hold-shut', 'a hold-shut ends in steady time: a steward\'s five minutes gain nothing', 'till', MON+'16:00:00', '''
k ok 1 12 739204 ok ok => audit=[asked, held-shut]
until 2027-03-02T08:20:00
k ok ok ok ok 3 50 805231 ok 02032027 ok 0824 ok ok => audit=[asked, clock-corrected]
until 2027-03-02T08:26:00
say The clock shows half past eight; the hold-shut is four minutes longer. :: k 01 480317 ok => state=secured audit=[refused-held-shut]
until 2027-03-02T08:29:59
k 12 739204 ok => state=secured audit=[refused-held-shut]
wait 1s
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-hold-shut-31-days', 'R3: nobody shuts a lock for longer than thirty-one days', 'a hold-shut without a start within 31 days is refused; one day nearer it is set', 'till', '2027-03-31T18:00:00', '''
say The next window of A is on 3 May, the closure ends on 2 May. :: k ok 1 12 739204 ok ok => audit=[refused-hold]
k back back
until 2027-04-02T09:00:00
k ok 1 12 739204 ok ok => audit=[asked, held-shut]
k 01 480317 ok => state=secured audit=[refused-held-shut]
''', site='../files/closed-in-april.toml')
drill('r03-hold-shut-ends-a-release', 'R3: a hold-shut ends a release, and a hand may have been faster', 'hold-shut ends a release at once; drawn within 2 s it is opened, without an alarm', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
k ok 1 13 918053 ok ok => state=secured audit=[asked, held-shut, not-drawn]
wait 1s
bolt force => state=open alarm=quiet audit=[opened]
''')
drill('r03-hold-shut-and-two-seconds-later', 'R3: two seconds after a release ended a drawn bolt is forced', 'the grace of 2 s is exclusive', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
k ok 1 13 918053 ok ok => state=secured audit=[asked, held-shut, not-drawn]
wait 2s
bolt force => state=open alarm=tamper audit=[forced]
''')
drill('r03-inhibit-ends-a-release', 'R3: the building\'s alarm ends a release', 'inhibit set in a release: not-drawn at once, and the bolt holds', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
wait 3s
inhibit true => state=secured audit=[not-drawn]
bolt draw => bolt=thrown state=secured
''')
drill('r03-hold-shut-ends-a-wait', 'R3: a hold-shut ends a wait, and its record comes first', 'what caused it is written first, then what it ends', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok 1 13 918053 ok ok => state=secured audit=[asked, held-shut, cancelled]
''')
# ---- clock
drill('r03-clock-forward-brings-no-row-forward', 'R3: a row that waits waits in steady time when the clock goes on', 'two people set the clock behind the start of a row that waits: it waits on', 'till', MON+'09:00:00', '''
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok ok => audit=[asked, enrolled]
until 2027-03-01T10:00:00
k ok ok ok ok 3 50 805231 ok 01032027 ok 1400 ok 02 615928 ok ok => audit=[asked, asked, clock-set]
k 15 528406 ok => state=secured audit=[refused-closed]
until 2027-03-01T13:29:59
k 15 528406 ok => state=secured audit=[refused-closed]
wait 1s
say Its start has come; the clock still settles. :: k 15 528406 ok => state=secured audit=[refused-settling]
''')
drill('r03-clock-back-keeps-no-row-longer', 'R3: a row that waits waits in steady time when the clock goes back', 'two people set the clock back while a row waits: it waits no longer than before', 'till', MON+'09:00:00', '''
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok ok => audit=[asked, enrolled]
until 2027-03-01T12:00:00
k ok ok ok ok 3 50 805231 ok 01032027 ok 0800 ok 02 615928 ok ok => audit=[asked, asked, clock-set]
until 2027-03-01T13:29:59
k 15 528406 ok => state=secured audit=[refused-closed]
wait 1s
k 15 528406 ok => state=secured audit=[refused-settling]
''')
drill('r03-clock-set-with-a-file-waiting-rests', 'R3: a clock that is set while a file waits keeps the lock awake for nothing', 'the lock rests after the clock is set with a file waiting, notices keys, and adopts the file in steady time', 'till', MON+'16:50:00', '''
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/longer-mondays.toml
k ok => audit=[file-waits]
k ok ok ok ok 3 50 805231 ok 02032027 ok 0900 ok 02 615928 ok ok => audit=[asked, asked, clock-set]
wait 1m
k 77 000000 ok => audit=[wrong-code]
until 2027-03-02T08:29:59 => audit=[]
wait 1s => audit=[file-loaded]
''')
drill('keypad-clock-ahead-is-set-back', 'A clock that was set a year ahead is set back', 'the asked record of a wrong time does not pin the clock: two people set it back', 'till', MON+'09:00:00', '''
k ok ok ok ok 3 50 805231 ok 01032028 ok 0900 ok 02 615928 ok => screen="2028" audit=[asked, asked]
k ok => audit=[clock-set]
k ok ok ok ok 3 50 805231 ok 01032027 ok 0902 ok 02 615928 ok => screen="2027" audit=[asked, asked]
k ok => audit=[clock-set]
wait 8h
until 2027-03-02T09:00:00
k 12 739204 ok => state=released audit=[released]
''')
drill('keypad-clock-year-bounds', 'A clock is not set out of the years of the firmware', 'a date before the firmware was built, and one more than 30 years behind it, is refused and asked for again', 'till', MON+'09:00:00', '''
k ok ok ok ok 3 50 805231 ok 01012019 ok 0900 ok ok ok => audit=[asked]
k back back back => audit=[]
k ok ok ok ok 3 50 805231 ok 01032072 ok 0900 ok ok ok => audit=[asked]
k back back back => audit=[]
k 12 739204 ok => state=released audit=[released]
''')
drill('keypad-clock-in-the-second-of-two-hours', 'In the repeated hour the clock is set to the one that is meant', 'the second of two repeated times: three minutes, which a steward does alone', 'till', '2027-10-31T01:27:00Z', '''
k ok ok ok ok 3 50 805231 ok 31102027 ok 0130 ok => audit=[asked]
k 2 ok => audit=[clock-corrected]
''')
drill('keypad-clock-in-the-first-of-two-hours', 'The first of two repeated hours is an hour away', 'the first of two repeated times: more than a steward may, so a warden too', 'till', '2027-10-31T01:27:00Z', '''
k ok ok ok ok 3 50 805231 ok 31102027 ok 0130 ok => audit=[asked]
k 1 => audit=[]
k 02 615928 ok ok => audit=[asked, clock-set]
''')
drill('r03-clock-set-by-two-ends-every-wait', 'R3: a clock that two people set ends the wait of who follows always, too', 'a wait of an always holder is cancelled by clock-set', 'store', MON+'09:00:00', '''
k 01 480317 ok => state=waiting audit=[delay-started]
k ok ok ok ok 3 50 805231 ok 01032027 ok 1000 ok 02 615928 ok ok => state=secured audit=[asked, asked, clock-set, cancelled]
''')
drill('r03-a-small-correction-ends-no-wait', 'R3: a steward\'s small correction ends no wait', 'after clock-corrected the people are decided anew, and permitted', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok ok 3 50 805231 ok 01032027 ok 0903 ok ok => state=waiting audit=[asked, clock-corrected]
until 2027-03-01T09:10:00 => state=claimable
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-forward-and-back-add-up', 'R3: three minutes forward and three back are six', 'a steward\'s corrections add up whatever their direction', 'till', MON+'09:00:00', '''
k ok ok ok ok 3 50 805231 ok 01032027 ok 0903 ok ok => audit=[asked, clock-corrected]
k ok ok ok ok 3 50 805231 ok 01032027 ok 0900 ok => screen="warden" audit=[asked]
k ok => audit=[]
''')
drill('r03-a-chip-that-goes-back-is-not-believed', 'R3: a clock chip set back without power is not believed', 'a chip below the floor at a boot: clock-invalid', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
wait 10s => audit=[not-drawn]
power cut
clock -2h
power restore => audit=[powered-up, clock-invalid]
k 12 739204 ok => state=secured audit=[refused-clock]
''')
drill('r03-a-chip-that-is-a-year-ahead-is-not-believed', 'R3: a clock chip more than a year ahead at a boot is not believed', 'a chip more than 366 days later than the floor: clock-invalid, and it can be set right by two', 'till', MON+'09:00:00', '''
k 12 739204 ok => audit=[released]
wait 10s => audit=[not-drawn]
power cut
clock +8800h
power restore => audit=[powered-up, clock-invalid]
k ok ok ok ok 3 50 805231 ok 01032027 ok 0901 ok 02 615928 ok ok => audit=[asked, asked, clock-set]
''')
# ---- boots
drill('r09-found-thrown-then-forced', 'R9: thrown without power is found, and forced after that is told', 'issue item 3: found-thrown at the boot; forced without power after it raises the alarm', 'till', MON+'09:00:00', '''
k 12 739204 ok => audit=[released]
bolt draw => state=open audit=[opened]
power cut
bolt throw
power restore => state=secured alarm=quiet audit=[powered-up, found-thrown]
power cut
bolt force
power restore => state=open alarm=tamper audit=[powered-up, forced]
''')
drill('r09-drawn-without-power-in-a-release', 'R9: a bolt drawn while a release lost its power is opened', 'last word released, ajar at the boot: opened, no alarm', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
power cut
bolt draw => bolt=drawn
power restore => state=open alarm=quiet audit=[powered-up, opened]
bolt throw => state=secured audit=[secured]
''')
drill('r09-a-release-that-lost-its-power', 'R9: a release that lost its power is over with the boot', 'last word released, thrown at the boot: blocked, not-drawn', 'till', MON+'09:00:00', '''
k 12 739204 ok => state=released audit=[released]
power cut
power restore => state=secured audit=[powered-up, not-drawn]
bolt draw => bolt=thrown state=secured
power cut
bolt force
power restore => state=open alarm=tamper audit=[powered-up, forced]
''')
drill('r09-forced-stays-forced-after-a-boot', 'R9: a forced lock is still forced after a power cut', 'last word forced, ajar at the boot: tamper again, no second record', 'till', MON+'09:00:00', '''
bolt force => state=open alarm=tamper audit=[forced]
wait 61s => alarm=quiet
power cut
power restore => state=open alarm=tamper audit=[powered-up]
bolt throw => state=secured audit=[secured]
''')
drill('r09-left-open-after-a-boot', 'R9: a power cut does not hide that a lock was left open', 'an opened lock\'s permit is decided anew at a boot: left-open at its end', 'till', MON+'16:55:00', '''
k 12 739204 ok => audit=[released]
bolt draw => audit=[opened]
power cut
wait 1m
power restore => state=open audit=[powered-up]
until 2027-03-01T17:00:00 => state=open audit=[left-open]
''')
drill('r09-power-ups-are-counted', 'R9: a thousand power cycles push no opening out of the audit', 'two powered-up records in a row, then none: the others are counted', 'till', MON+'09:00:00', 'k 12 739204 ok => audit=[released]\nwait 10s => audit=[not-drawn]\n' + 3*'power cut\npower restore\n' + '=> audit=[powered-up, powered-up]\n' + 3*'power cut\npower restore => audit=[]\n' + '''
k 12 739204 ok => audit=[released]
wait 10s => audit=[not-drawn]
power cut
power restore => audit=[powered-up]
''')
# ---- decided anew
drill('r03-a-narrower-file-ends-a-wait', 'R3: a file that closes the window ends a wait at once', 'file-loaded, then cancelled (changed)', 'store', MON+'14:58:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
until 2027-03-01T15:01:00
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/shorter-mondays.toml
k ok => state=secured audit=[file-loaded, cancelled]
''')
drill('r03-a-narrower-file-shortens-a-permit', 'R3: a file that ends the window sooner ends the wait there', 'the permit ends when it would now: cancelled (window-end) at 15:00', 'store', MON+'14:49:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/shorter-mondays.toml
k ok => state=waiting audit=[file-loaded]
until 2027-03-01T14:59:59 => state=claimable
wait 1s => state=secured audit=[cancelled]
''')
drill('r03-a-longer-delay-ends-a-wait', 'R3: a longer delay ends a wait that was shorter', 'policy-set, then cancelled; the next wait is the longer one', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok ok ok 1 01 480317 ok ok 2 20 ok ok => state=secured audit=[asked, policy-set, cancelled]
k 12 739204 ok => state=waiting screen="20 min" audit=[delay-started]
''')
drill('r03-dual-control-ends-a-wait-of-one', 'R3: dual control ends the wait of one person', 'policy-set, then cancelled (changed); then two are needed', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok ok ok 1 01 480317 ok ok ok 1 1 ok => state=secured audit=[asked, policy-set, cancelled]
k 12 739204 ok => state=secured audit=[first-of-two]
''')
drill('r03-another-timetable-ends-a-wait', 'R3: who gets another timetable waits no more', 'timetable-chosen, then cancelled (changed)', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok 3 01 480317 ok 12 ok 2 ok => state=secured audit=[asked, timetable-chosen, cancelled]
''')
drill('r03-somebody-elses-change-ends-no-wait', 'R3: a change that touches nobody of a wait leaves it', 'the people are decided anew and permitted', 'store', MON+'09:00:00', '''
k 12 739204 ok => state=waiting audit=[delay-started]
k ok ok ok 3 01 480317 ok 13 ok 2 ok => state=waiting audit=[asked, timetable-chosen]
until 2027-03-01T09:10:00 => state=claimable
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-two-who-began-claim-it-both', 'R3: two who began a wait claim it both, whatever holds by then', 'dual control off falls due within the wait: one is the first of two, both release', 'strongbox', MON+'20:00:00', '''
k ok ok ok ok ok 1 01 480317 ok ok ok 1 2 02 615928 ok ok => audit=[asked, asked, policy-set]
until 2027-03-02T08:25:00
k 01 480317 ok => state=secured audit=[first-of-two]
k 03 371940 ok => state=waiting audit=[delay-started]
until 2027-03-02T08:35:00 => state=claimable
k 03 371940 ok => state=claimable audit=[first-of-two]
k 01 480317 ok => state=released audit=[released]
''', site='../files/two-always.toml')
drill('r03-first-of-two-suspended-meanwhile', 'R3: the second person is told that the first is refused', 'refused-first-refused names the second; nobody waits any more', 'vault', MON+'09:00:00', '''
k 12 739204 ok => audit=[first-of-two]
k ok ok 2 03 371940 ok 12 ok ok => audit=[asked, suspended]
k 13 918053 ok => state=secured audit=[refused-first-refused]
k 13 918053 ok => state=secured audit=[first-of-two]
''')
drill('r03-first-of-two-whose-window-ended', 'R3: the first of two whose window is over is nobody', 'the first is judged again when the second is permitted', 'vault', MON+'12:29:50', '''
k 12 739204 ok => audit=[first-of-two]
wait 20s
k 01 480317 ok => state=secured audit=[refused-first-refused]
''')
# ---- undo, brought forward
drill('r03-undo-of-a-timetable', 'R3: undoing a change that waits restores what held, at once', 'A to B to A: opens in A\'s window the same minute', 'till', MON+'09:00:00', '''
k ok ok ok 3 01 480317 ok 12 ok 2 ok => audit=[asked, timetable-chosen]
k 12 739204 ok => state=secured audit=[refused-closed]
k ok ok ok 3 01 480317 ok 12 ok 1 ok => audit=[asked, timetable-chosen]
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-undo-of-a-suspension-waits', 'R3: a suspension is no change that waits: restoring waits', 'suspended at once, restored from the next start of a window on', 'till', MON+'09:00:00', '''
k ok ok 2 01 480317 ok 12 ok ok => audit=[asked, suspended]
k ok ok 3 01 480317 ok 12 ok ok => audit=[asked, restored]
k 12 739204 ok => state=secured audit=[refused-closed]
until 2027-03-01T13:30:00
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-undo-of-a-shorter-delay', 'R3: a shorter delay that was undone comes no more', 'ten to five to ten minutes: ten, also when the five would have come', 'store', MON+'09:00:00', '''
k ok ok ok ok ok 1 01 480317 ok ok 2 5 ok ok => audit=[asked, policy-set]
k ok ok ok ok ok 1 01 480317 ok ok 2 10 ok ok => audit=[asked, policy-set]
until 2027-03-02T09:00:00
k 12 739204 ok => state=waiting screen="10 min" audit=[delay-started]
''')
drill('r03-an-opening-brings-rows-forward', 'R3: when the lock is opened what waits applies', 'a row that waits opens after a real opening', 'till', MON+'09:00:00', '''
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok ok => audit=[asked, enrolled]
k 15 528406 ok => state=secured audit=[refused-closed]
wait 1m
''' + OPEN01 + '''
bolt throw => state=secured audit=[secured]
k 15 528406 ok => state=released audit=[released]
''')
drill('r03-a-forced-bolt-brings-nothing-forward', 'R3: a forced bolt brings nothing forward', 'rows and files wait on behind a forced bolt', 'till', MON+'16:50:00', '''
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok ok => audit=[asked, enrolled]
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/longer-mondays.toml
k ok => audit=[file-waits]
bolt force => state=open alarm=tamper audit=[forced]
k 15 528406 ok => audit=[refused-already-open]
bolt throw => state=secured audit=[secured]
k 15 528406 ok => state=secured audit=[refused-closed]
until 2027-03-01T17:30:00
k 12 739204 ok => state=secured audit=[refused-closed]
''')
drill('r03-an-opening-brings-a-file-forward', 'R3: when the lock is opened a file that waits applies', 'file-loaded at the real opening, by nobody', 'till', MON+'16:50:00', '''
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/longer-mondays.toml
k ok => audit=[file-waits]
k 01 480317 ok => audit=[released]
bolt draw => state=open audit=[opened, file-loaded]
bolt throw => audit=[secured]
until 2027-03-01T18:00:00
k 12 739204 ok => state=released audit=[released]
''')
drill('r03-what-a-boot-finds-open-brings-nothing-forward', 'R3: a lock that a boot finds open brings nothing forward', 'a row that was made to wait before stays so', 'till', MON+'09:00:00', '''
k 12 739204 ok => audit=[released]
k ok ok 1 01 480317 ok 15 ok 3 1 528406 ok 528406 ok ok => state=released audit=[asked, enrolled]
power cut
bolt draw
power restore => state=open audit=[powered-up, opened]
bolt throw => audit=[secured]
k 15 528406 ok => state=secured audit=[refused-closed]
''')
# ---- files
drill('files-a-waiting-file-is-replaced', 'A newer file may replace one that waits', 'longer waits; a narrower one replaces it and waits until the older one\'s instant', 'till', MON+'16:50:00', '''
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/longer-mondays.toml
k ok => audit=[file-waits]
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/shorter-mondays.toml
k ok => audit=[file-waits]
until 2027-03-02T08:30:00 => audit=[file-loaded]
until 2027-03-08T15:00:00
k 12 739204 ok => state=secured audit=[refused-closed]
''')
drill('files-a-file-waits-behind-a-last-page', 'A file that falls due waits while a dialogue stands at its last page', 'one change at a time: the person\'s change under its record, then the file under its own', 'till', '2027-03-01T16:50:00', '''
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/longer-mondays.toml
k ok => audit=[file-waits]
until 2027-03-02T08:29:58
k ok ok 2 01 480317 ok 13 ok => audit=[asked]
wait 3s => audit=[]
k ok => audit=[suspended, file-loaded]
power cut
power restore => audit=[powered-up]
k 13 918053 ok => state=secured audit=[refused-suspended]
until 2027-03-08T18:00:00
k 12 739204 ok => state=released audit=[released]
''')
drill('keypad-a-timetable-without-windows', 'A timetable without windows is refused where it is chosen', 'C has no windows: asked for again, nothing recorded, nothing lost', 'till', MON+'09:00:00', '''
k ok ok ok 3 01 480317 ok 12 ok => audit=[asked]
k 3 ok => audit=[]
k back back back => audit=[]
k 12 739204 ok => state=released audit=[released]
''')
# ---- R11
STUCK = '''
say Maeve, who alone follows no timetable, follows A from now on. :: k ok ok ok 3 01 480317 ok 01 ok 1 ok => audit=[asked, timetable-chosen]
'''
drill('r11-a-file-that-shuts-everybody-out-is-refused', 'R11: a file that leaves nobody a window is refused, bolt thrown', 'stuck is refused with the bolt thrown: nothing recorded, the old file stays', 'till', MON+'09:00:00', STUCK + '''
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/shut-for-years.toml
k ok ok => audit=[]
k back back back => audit=[]
until 2027-03-02T09:00:00
k 12 739204 ok => state=released audit=[released]
''')
SHUT = '''
k 12 739204 ok => audit=[released]
bolt draw => audit=[opened]
say The bolt is drawn: the same is asked once more, and then done. :: k ok ok ok 3 01 480317 ok 01 ok 1 ok => audit=[asked, timetable-chosen]
k ok ok ok ok 2 50 805231 ok => audit=[asked]
load ../files/shut-for-years.toml
k ok => audit=[]
say Nobody\'s window is open now: it is left open. :: k ok => audit=[file-loaded, left-open]
bolt throw => state=secured audit=[secured]
k 12 739204 ok => state=secured audit=[refused-closed]
'''
drill('r11-with-the-bolt-drawn-it-asks-once-more', 'R11: with the bolt drawn what leaves nobody a window asks twice', 'drawn: one more question, then file-loaded', 'till', MON+'09:00:00', SHUT)
drill('r11-the-way-out-of-two', 'R11: in a stuck lock two privileged people ask for a way out', 'way-out-begun, 72 h, way-out, being set up: widening at once', 'till', MON+'09:00:00', SHUT + '''
k ok ok ok ok ok ok 2 01 480317 ok => audit=[asked]
k 02 615928 ok => audit=[asked]
k ok => state=secured audit=[way-out-begun]
wait 61s => screen="72 h"
wait 259138s => state=secured audit=[]
wait 1s => state=secured audit=[way-out]
say It is being set up: what widens applies at once. :: k ok ok ok 3 01 480317 ok 12 ok 9 ok => audit=[asked, timetable-chosen]
k 12 739204 ok => state=released audit=[released]
''')
drill('r11-the-way-out-alone-takes-14-days', 'R11: alone the way out takes fourteen days', 'OK where the second person is asked for: 14 days', 'till', MON+'09:00:00', SHUT + '''
k ok ok ok ok ok ok 2 01 480317 ok ok ok => audit=[asked, way-out-begun]
wait 72h => audit=[]
wait 264h => audit=[way-out]
''')
drill('r11-another-code-ends-a-way-out', 'R11: the code of another privileged person ends a way out', 'way-out-ended by the steward; not by who asked', 'till', MON+'09:00:00', SHUT + '''
k ok ok ok ok ok ok 2 01 480317 ok ok ok => audit=[asked, way-out-begun]
k ok 2 12 739204 ok => audit=[status]
k ok 2 50 805231 ok => audit=[status, way-out-ended]
wait 336h => audit=[]
''')
drill('r11-a-boot-begins-the-way-out-anew', 'R11: a boot begins the seventy-two hours anew', '71 h, a power cut, 71 h: not yet', 'till', MON+'09:00:00', SHUT + '''
k ok ok ok ok ok ok 2 01 480317 ok 02 615928 ok ok => audit=[asked, asked, way-out-begun]
wait 71h
power cut
power restore => audit=[powered-up]
wait 71h => audit=[]
wait 1h => audit=[way-out]
''')
drill('r11-no-way-out-where-none-is-needed', 'R11: a lock that somebody could open has no way out', 'way-out is refused with the reason', 'till', MON+'09:00:00', '''
k ok ok ok ok ok ok 2 01 480317 ok => audit=[asked]
k ok ok => audit=[]
''')
drill('r11-the-bolt-thrown-too-early', 'R11: a lock that is being set up is no trap', 'commissioned, then thrown: what widens applies at once, and somebody opens it', 'till', MON+'07:00:00', '''
bolt force => alarm=quiet audit=[]
switch on
k ok 01 ok 480317 ok 480317 ok ok => alarm=quiet audit=[commissioned]
switch off
bolt throw => state=secured audit=[secured]
say Nobody can open yet, and the bolt is thrown. :: k 01 480317 ok => state=secured audit=[refused-right]
k ok ok 1 01 480317 ok 12 ok 3 9 739204 ok 739204 ok ok => audit=[asked, enrolled]
k 12 739204 ok => state=released audit=[released]
''', fresh='true')
# ---- deputies
drill('keypad-deputies-enrol', 'A deputy enrols a keyholder, nobody else', 'deputies = enrol is the default; role steward is not theirs to give', 'till', MON+'09:00:00', '''
k ok ok 1 03 371940 ok 15 ok 3 1 528406 ok 528406 ok ok => audit=[asked, enrolled]
k ok ok ok 2 03 371940 ok => audit=[refused-right]
''')
drill('keypad-deputies-suspend-only', 'The policy leaves deputies nothing but to suspend', 'deputies = suspend narrows at once: enrol and remove refused-right, suspend done', 'till', MON+'09:00:00', '''
k ok ok ok ok ok 1 01 480317 ok ok ok ok ok 2 1 ok ok => audit=[asked, policy-set]
k ok ok 1 03 371940 ok => audit=[refused-right]
k ok ok ok 1 03 371940 ok => audit=[refused-right]
k ok ok 2 03 371940 ok 12 ok ok => audit=[asked, suspended]
''')
# ---- couriers
ENROL40 = 'k 01 480317 ok => audit=[released]\nbolt draw => audit=[opened]\nk ok ok 1 01 480317 ok 40 ok 4 1 ok => audit=[asked, enrolled]\nbolt throw => audit=[secured]\n'
drill('courier-seven-digits', 'A courier\'s code has seven digits, whatever the policy says', 'code_digits is 6 or becomes 8: the courier\'s code stays right', 'till', MON+'09:00:00', ENROL40 + '''
courier 40 => state=released audit=[released]
wait 10s => audit=[not-drawn]
k ok ok ok ok ok 1 01 480317 ok 1 8 ok ok => audit=[asked, policy-set]
courier 40 => state=released audit=[released]
wait 10s => audit=[not-drawn]
say Six digits are nobody's code. :: k 40 123456 ok => state=secured audit=[wrong-code]
''')
VAULT40 = 'k 01 480317 ok => audit=[first-of-two]\nk 12 739204 ok => audit=[released]\nbolt draw => audit=[opened]\nk ok ok 1 01 480317 ok 40 ok 4 1 02 615928 ok ok => audit=[asked, asked, enrolled]\nk ok ok 1 01 480317 ok 41 ok 4 1 02 615928 ok ok => audit=[asked, asked, enrolled]\nbolt throw => audit=[secured]\n'
drill('courier-first-of-two-is-not-used-up', 'Nobody came: the courier\'s code is good once more', 'as the first of two a one-time code is not used up; as one of two who open it is', 'vault', MON+'09:00:00', VAULT40 + '''
courier 40 => state=secured audit=[first-of-two]
wait 60s => audit=[lapsed]
courier { number = "40", again = true } => state=secured audit=[first-of-two]
k 12 739204 ok => state=released audit=[released]
wait 10s => audit=[not-drawn]
courier { number = "40", again = true } => state=secured audit=[wrong-code]
''')
drill('courier-both-are-couriers', 'Two couriers open: both codes are used up', 'the record of released uses up both', 'vault', MON+'09:00:00', VAULT40 + '''
courier 40 => state=secured audit=[first-of-two]
courier 41 => state=released audit=[released]
wait 10s => audit=[not-drawn]
courier { number = "40", again = true } => state=secured audit=[wrong-code]
courier { number = "41", again = true } => state=secured audit=[wrong-code]
courier { number = "41" } => state=secured audit=[first-of-two]
''')
drill('courier-the-status-uses-nothing-up', 'A courier reads the status and still opens', 'for the status a one-time code is not used up', 'till', MON+'09:00:00', ENROL40 + '''
k ok 2
courier 40 => state=secured audit=[status]
courier { number = "40", again = true } => state=released audit=[released]
''')
drill('courier-claims-under-duress', 'A courier claims with the code that began the wait, or its variant', 'the claim takes the duress variant of the code that began it, and is heard', 'store', MON+'09:00:00', '''
k 01 480317 ok => audit=[delay-started]
wait 10m
k 01 480317 ok => audit=[released]
bolt draw => audit=[opened]
k ok ok 1 01 480317 ok 40 ok 4 1 ok => audit=[asked, enrolled]
bolt throw => audit=[secured]
courier 40 => state=waiting alarm=quiet audit=[delay-started]
wait 10m => state=claimable
courier { number = "40", again = true, duress = true } => state=released alarm=duress audit=[released]
''')
drill('courier-a-plainly-wrong-code-is-counted', 'A wrong one-time code counts like any other', 'four wrong codes on a courier\'s number start a penalty', 'till', MON+'09:00:00', ENROL40 + '''
k 40 0000000 ok 40 0000000 ok 40 0000000 ok 40 0000000 ok => penalty=true audit=[wrong-code, wrong-code, wrong-code, wrong-code, penalty]
''')
# ---- typing, alarm test
drill('keypad-too-long', 'Too many digits are no try, and say so', 'eleven digits and more: too long, nothing counted or recorded; the next entry is judged', 'till', MON+'09:00:00', '''
k 12 739204 7392 => screen="long"
k 0 ok => state=secured audit=[]
k 12 739204 ok => state=released audit=[released]
'''.replace('k 12 739204 7392 =>', 'k 12 739204 739 =>'))
drill('keypad-too-long-ends-after-20-seconds', 'After too many digits the keypad is free again in twenty seconds', 'digits behind a too long entry do nothing until OK, back or 20 s', 'till', MON+'09:00:00', '''
k 12 739204 739 => screen="long"
k 12 739204 => audit=[]
wait 20s
k 12 739204 ok => state=released audit=[released]
''')
drill('keypad-alarm-test-asks', 'The test of the alarm line says first whom to tell', 'the question names the alarm receiver; nothing goes out before OK', 'till', MON+'09:00:00', '''
k ok ok ok ok ok 2 01 480317 ok => screen="receiver" alarm=quiet audit=[asked]
say With the bolt thrown OK does not raise it. :: k ok => alarm=quiet audit=[]
k back back
''' + OPEN01 + '''
k ok ok ok ok ok 2 01 480317 ok => screen="receiver" alarm=quiet audit=[asked]
k back => alarm=quiet audit=[]
k ok ok ok ok ok 2 01 480317 ok => alarm=quiet audit=[asked]
k ok => alarm=duress audit=[alarm-tested]
power cut
power restore => alarm=quiet audit=[powered-up]
''')
# ---- erased, commissioning, reset
drill('keypad-erased-flash', 'Erased flash is commissioned at the door', 'nothing was written by a host: not in use yet, first warden, durable', 'till', MON+'07:00:00', '''
say Nothing was ever written to its flash. :: => state=secured bolt=thrown alarm=quiet screen="Not in use yet"
bolt force => alarm=quiet audit=[]
switch on
k ok => screen="First warden Choose a number"
k 01 ok 480317 ok 480317 ok => screen="OK: yes"
k ok => screen="01 is warden" alarm=quiet audit=[commissioned]
power cut
power restore => state=open alarm=quiet audit=[powered-up]
switch off
k ok ok 1 01 480317 ok => audit=[asked]
''', fresh='"erased"')
drill('keypad-erased-flash-closed-again', 'Erased flash: what is drawn and thrown with nobody enrolled is no alarm', 'a hand closes a lock in which nobody is enrolled: nothing recorded, no alarm; a boot blocks', 'till', MON+'07:00:00', '''
bolt force => alarm=quiet audit=[]
bolt throw => alarm=quiet audit=[]
power cut
power restore => bolt=thrown
bolt draw => bolt=thrown
''', fresh='"erased"')
COMM = '''
say Nobody is enrolled. The lock is blocked and says so. :: => state=secured alarm=quiet screen="Not in use yet"
say The installer draws the bolt and leaves it drawn to the end. :: bolt force => alarm=quiet audit=[]
door open
switch on
k ok => screen="First warden Choose a number"
say An easy code is refused, with the reason. :: k 01 ok 123456 ok => screen="Easy to guess: even steps"
k 480317 ok 480317 ok => screen="OK: yes"
k ok => screen="01 is warden" audit=[commissioned]
switch off
say A second warden comes while the lock is open: one person's lock is no lock. :: k ok ok 1 01 480317 ok 02 ok 1 2 615928 ok 615928 ok ok => audit=[asked, enrolled]
say A steward, for clock and files, with the second warden beside. :: k ok ok 1 01 480317 ok 50 ok 5 805231 ok 805231 ok 02 615928 ok ok => audit=[asked, asked, enrolled]
say A keyholder who follows no timetable: there is none yet. :: k ok ok 1 01 480317 ok 12 ok 3 9 739204 ok 739204 ok ok => audit=[asked, enrolled]
say With the door open the bolt is thrown, and the code tried. Still open: the lock is not closed before the door is. :: bolt throw => state=open
bolt draw => state=open alarm=quiet
k 12 739204 ok => audit=[refused-already-open]
k ok 2 12 739204 ok => audit=[status]
k ok 2 01 480317 ok => audit=[status]
k ok 2 02 615928 ok => audit=[status]
k ok 2 50 805231 ok => audit=[status]
say Every code is right. Now the door, then the bolt. :: door close
bolt throw => state=secured audit=[secured]
k 12 739204 ok => state=released audit=[released]
bolt draw => state=open audit=[opened]
bolt throw => state=secured audit=[secured]
say And once more after a power cut. :: power cut
power restore => state=secured audit=[powered-up]
k 12 739204 ok => state=released audit=[released]
bolt draw => audit=[opened]
'''
drill('keypad-first-commissioning', 'A lock from the factory, set up with care', 'bolt drawn throughout, two wardens and a steward, a keyholder, each code tried, then closed', 'till', MON+'07:00:00', COMM, fresh='true')
drill('keypad-reset-begins-anew', 'R7: after a reset the lock is set up anew, and not a trap', 'reset, first warden anew, widening at once until somebody could open', 'till', MON+'09:00:00', OPEN01 + '''
switch on
k ok ok ok ok ok ok 1 01 480317 ok ok => screen="Not in use yet" audit=[asked, reset]
k ok 01 ok 528406 ok 528406 ok ok => audit=[commissioned]
switch off
k ok ok 1 01 528406 ok 12 ok 3 9 739204 ok 739204 ok ok => audit=[asked, enrolled]
bolt throw => state=secured audit=[secured]
k 12 739204 ok => state=released audit=[released]
''')
drill('r11-the-last-opener-is-not-removed', 'R11: the bolt thrown, nobody takes the last opener away for good', 'with an able warden and windows ahead somebody may still enrol: removing is allowed and is no dead end', 'till', MON+'09:00:00', '''
k ok ok ok 1 02 615928 ok 12 ok ok => audit=[asked, removed]
k ok ok ok 1 02 615928 ok 13 ok ok => audit=[asked, removed]
k 01 480317 ok => state=released audit=[released]
''')
open(f'{OUT}/INDEX.txt', 'w').write('\n'.join(INDEX) + '\n')
print(len(INDEX))

# ---- the files beside
demo = open('/work/wt/drills/emulator/demo/harbour-bakery.toml').read()
def site(name, what, old, new):
    assert old in demo, name
    text = demo.replace(old, new, 1)
    if name == 'shut-for-years.toml':
        i = text.index('[[closure]]\nfrom = 2027-12-25'); j = text.index('[[holder]]')
        text = text[:i] + text[j:]
    open(f'{OUT}/files/{name}', 'w').write(text.replace('# The demo site:', f'# {what}:', 1))
site('shut-for-years.toml', 'What the laptop seals in a drill: nobody has a window for years', '[[closure]]\nfrom = 2027-03-17                   # one day\nwhy = "Saint Patrick\'s Day"', '[[closure]]\nfrom = 2027-03-01\nto = 2029-12-31\nwhy = "Shut"')
site('closed-in-april.toml', 'A site in a drill: closed for a month', '[[closure]]\nfrom = 2027-03-17                   # one day\nwhy = "Saint Patrick\'s Day"', '[[closure]]\nfrom = 2027-04-01\nto = 2027-05-02\nwhy = "Rebuilt"')
site('two-always.toml', 'A site in a drill: two who follow no timetable', 'name = "Ines"\nrole = "deputy"\nopens = true\ntimetable = "A"', 'name = "Ines"\nrole = "deputy"\nopens = true\ntimetable = "always"')
