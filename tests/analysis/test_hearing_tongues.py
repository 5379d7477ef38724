"""Short remarks as lifters type them, in eight languages: what tells of a body, and what is technique."""

from reportgen.analysis import alarms, hearing
from reportgen.trade import load
from tests.each import each

TOLD = """
tweaked my back on the last pull
wrist is cranky
knee feels weird today
shoulder pinching overhead
elbow feels off
hip is bugging me
back went on set 3
felt something in my groin
knee clicking a lot
hamstring grabbed
bar hit my head on the way down
concussion check on Friday
no period since summer
due date in April
8 weeks postpartum
took two ibuprofen to get through
kinesio tape on the knee
had to wrap the wrist to train
dr says rotator cuff
MRI booked for the shoulder
can't lift my arm above my head this morning
low back flare up
pulled something in my chest
chest tight during squats
tingling in the fingers
disc is playing up
adductor niggle again
fell on my elbow
epaule qui tire
genou douloureux
mal au dos
tendinite au coude
enceinte de 3 mois
j'ai des fourmis dans la main
Knie zwickt
Rücken verrissen
Schulter zieht
Handgelenk tut weh
bin schwanger
Leiste gezerrt
dolor de rodilla
me duele el hombro
me molesta la muñeca
tirón en el isquio
estoy embarazada
fastidio alla spalla
mal di schiena
mi fa male il ginocchio
sono incinta
dolorino al gomito
dor no ombro
joelho incomodando
estou grávida
boli mnie kolano
ból barku
nadgarstek pobolewa
jestem w ciąży
coś strzeliło w plecach
болит плечо
тянет поясницу
колено ноет
беременна
потянул спину
knee playing up again
low back has been flaring up since Tuesday
my wrist is still cranky in the rack
shoulder's grumpy
elbow is bugging me on jerks
hip feels off
knee feels weird going down
disc acting up
hammy grabbed on the second pull
pulled something in my back
fell on my elbow
landed on my shoulder
jarred my wrist
rolled my ankle walking home
twisted my knee
neck seized up
back went again
back is out
had to ice the knee
knee not happy
shoulder isn't happy
knees complaining
twinge in the groin
calf cramp and now it limps
limping a bit
felt a pull in my adductor
felt it pull in the hamstring
something not right in the shoulder
knee is swelling again
sharp stab in the wrist
can't put weight on my foot
stopped because of the knee
knee said no
elbow tendon is angry
Rücken macht zu
Rücken macht dicht
Schulter muckt
Knie meldet sich wieder
Handgelenk entzündet
hab mir den Rücken verrissen
ISG blockiert
Leiste zieht
Schulter zickt
Knie spinnt
Adduktor gezerrt
Muskelfaserriss in der Wade
épaule sensible
genou qui craque
genou gonflé
dos bloqué
gêne à l'épaule
tendinite
je me suis fait mal au poignet
lombaires en vrac
ça tire dans l'aine
hombro cargado y molesta
molestias en la rodilla
me molesta el codo
rodilla inflamada
me dio un tirón el gemelo
contractura en el cuello
espalda tocada
fastidio alla spalla destra in strappo
mi fa male il polso
ginocchio infiammato
schiena bloccata
dolorino al gomito
contrattura al trapezio
dor na lombar
ombro incomodando
joelho inchado
senti uma fisgada na coxa
travei as costas
nadgarstek pobolewa
kolano spuchło
ciągnie w pachwinie
coś przeskoczyło w barku
strzyka w kolanie
naderwałem dwugłowy
спина болела
колено ноет
плечо беспокоит
прострелило поясницу
защемило шею
потянул пах
запястье опухло
растянул голеностоп
cut 3 kg in three weeks for the meet
3.4 kg to cut in three weeks
needs to lose 4 kg before the weigh-in
since the little one arrived in June
back to it since my daughter was born
maternity leave ends in May
due date 4 March
my back is toast, could hardly tie my shoes
went all black for a second after the jerk
knee blew up like a balloon
shoulder's been dodgy
bad knee, wrapped it up
need to drop 4 kg by Saturday, sauna tonight
eating nothing till weigh-in, 3 kilos to go
es hat im Ellbogen geknackt, seitdem dick
Knie ist dick geworden
tengo el hombro fastidiado
se me duerme la mano
mon épaule me lance
tour de reins
joelho a incomodar
dei um mau jeito nas costas
стрельнуло в пояснице
cutting 3 kg water
sweating down 3 kg
Spritze in die Schulter bekommen
infiltration à l'épaule
bin im fünften Monat
stillt gerade noch
pec popped
bicep rolled up
something gave in my lower back
my back gave out
groin went
adductor strain again
shoulder clunked out and back in
disc bulge L5
left knee is shot
hip pinchy
foot drops
can't lift his arm above shoulder height
couldn't pee after squats
peeing cola colour
CK 12000
peed a bit of blood
165/100 at pharmacy
ECG wasn't normal
New ICD
asthma attack
bub is 5 weeks old
She's in week 14
knee is back to its old tricks
elbow bent the wrong way
Club test (withdrew after fainting)
Dropping two classes in three weeks, eats 900 kcal
dropping 6 kg in 10 days for weigh in
Weight went from 71 to 64 since October
Surgeon wants nothing overhead before March
He can only squat with the safety bar until the wrist heals
No jumping or landing for four weeks
She has been told to stay off her feet
off overhead till cleared
Doctor's orders: no lifting
banned from squatting until the scan
Thumb is splinted, straps only
arm is in plaster
she's on crutches
keep it to body weight while the stitches are in
stitches in my shin, no pulls from the floor
has 6 stitches in the hand
told not to lift
I have to rest my elbow
not squatting at the moment
no overhead at the moment
must avoid overhead until February
can't load the spine for now
half weights only till the end of January
please no max outs before exams
smashed my head on the rack
bar landed on her neck
got hit in the head, dizzy
slipped on ice and hit his head
fell down the stairs, ribs sore
ribs are killing me
hammy twanged
shoulder isn't right
hip locks when I stand
something crunched in my neck
back is in bits
back is knackered
wrist is wrecked
popped a rib
ankle rolled over
felt a sharp tug in the groin
blood in the toilet bowl after
heart doing funny things
he went white and had to lie down
saw spots
had a funny turn
lost 5 kg in two weeks
not eating before Saturday
living on 800 calories
Cannot do any pulling with this thumb
the knee will not take squats yet
wearing a wrist support, pushing hurts
no bar work till the stitches heal
GP said stay under ten kilos
keep him away from jerks for three weeks
he's forbidden to lift before the check-up
tibia cracked
toe is broken
cracked a rib coughing
tendon went ping
elbow ballooned
pins in my ankle ache
nerve pain down the leg
electric shocks down my arm
tingly hand
gone deaf in one ear after the rep
nosebleed during the heavy set
vomited twice then collapsed
concussed
he headbutted the bar
miscarried in May
nursing a newborn, back to lifting
started blood pressure meds
she only eats apples this week
spitting into cups to make weight
"""
#: In tongues of which no native speaker has read a word here.
UNREAD = """
polvi kipeä
selkä kipeä
olkapää sattuu
ranne kipeä
kyynärpää kipeä
polveen sattuu
fáj a térdem
fáj a hátam
vállfájdalom
fáj a csuklóm
könyök fáj
knie doet pijn
pijn in de schouder
last van mijn rug
pols doet zeer
ont i knät
ont i ryggen
axeln gör ont
handleden värker
vondt i kneet
ondt i ryggen
smerter i skulderen
håndledd gjør vondt
bolí mě koleno
bolest zad
bolí rameno
bolí zápěstí
loket bolí
dizim ağrıyor
belim ağrıyor
omuz ağrısı
bileğim ağrıyor
sırtım ağrıyor
mă doare genunchiul
durere de spate
mă doare umărul
doare încheietura
durere la cot
πονάει το γόνατο
πόνος στην πλάτη
πόνος στη μέση
πονάει ο ώμος
πονάει ο καρπός
τραυματισμός
膝が痛い
腰が痛い
肩の痛み
手首が痛い
肘痛
怪我した
무릎이 아프다
허리 통증
어깨 아픔
손목 통증
팔꿈치 통증
부상
膝盖疼
腰痛
肩膀疼
手腕疼
肘部疼痛
受伤了
"""
HONEST = """
chest up, knees out, felt fast
hips shot up early
elbows slow in the rack
elbows flaring in the push press
keep the shoulders over the bar
knees in on the last rep
back tight off the floor, good
shoulder position feels better
wrists back, punched the bar
zieht die Schultern zu früh hoch
drückt die Knie nicht raus
Rücken rund bei 90
Schulter vor der Stange, gut
tirón con la espalda recta
cargada muy rápida
codos lentos
coudes lents, dos droit
tire trop tôt avec les bras
genoux rentrés
ginocchia dentro sull'ultima
strappo fatto male, da rifare
gomiti lenti
joelhos para dentro
cotovelos lentos
rwie plecami, za wcześnie
ciągnie rękami
łokcie wolno
тянет спиной, рано руки
локти медленно
колени внутрь
потянул 100 легко
hand grip slipped, chalk
hook grip with left thumb fine
back squat felt heavy
back from holiday
back on track
good morning, hamstrings worked
hit the bar with my hips, good contact
hip contact late
bar drifted from the shin
feet moved forward
toes out more
heels up at start
grinding out of the hole
glutes on fire after lunges
quads sore from monday
burning legs
forearms pumped
traps smoked
belt on, back felt solid
neck neutral, eyes ahead
wrist wraps on
knee sleeves forgotten
elbow sleeves new
pulled too early with the arms
landed on my toes
jumped forward, landed on heels
rolled the hips under
angry at myself
disc plates new
arm bend early
rib cage down
core braced
two weeks to the meet
cut the set short
dropped the last set
lost 2 positions
losing 2 kg on the bar today
need to drop 5 kg and build back up
cutting 10 kg off the bar for doubles
since the baby sleeps I sleep
new mum in the gym said hi
hombros adelante de la barra
mano izquierda resbaló
una mano de magnesia
braccia tese
mani fredde
rug recht
bark nisko
ręce za wcześnie
рука соскользнула
палец в замке
oberschenkel brennt ein bisschen vom muskelkater
wade locker
lockere Schultern heute
Hals frei, Blick nach vorn
dedos fríos
coxa cansada
hanches en arrière
cuisses lourdes
pied gauche avance
udo zmęczone
my knee does not hurt any more
no pain
sore legs from squats
easy, felt great
pain free for the first time in months
the bearings of the old bar need surgery
the bar gave birth to a rust stain
blacked out the windows
fingers numb with cold
dropped 5 kg after the second set
lost 5 kg on the bar
need to drop 5 kg for the doubles
bad lockout at the elbow
bad back angle off the floor
bad knee position in the dip
bad hip contact
the collar is toast
fastidiado por el tráfico
bad elbow turnover
bar bent, the old plates are toast
popped the bar off the hips
knocked out 5 doubles
knocked out three doubles
only singles today
not allowed myself a miss
strained to stand up but made it
gave it everything
shot video of the knee bend
can't wait to jerk
couldn't believe it
can't complain
avoid looking down
boot camp warm-up
new boots, heels feel stable
can't snatch 90 yet
still can't clean 100
couldn't squat it, lost balance
may not need straps any more
must not pull with the arms
shouldn't look down at the floor
only pulls today, gym was full
only allowed three attempts
brace harder before the dip
braced well, belt on
left the bar out in the rain
leave the bar on the blocks next time
stay over the bar longer
stay under the bar until it settles
not over the bar in the pull
nothing over 80 today, easy session
avoid jumping forward
avoid rushing the second pull
gave up on the last set
groin guard forgotten
went from 71 to 64 kg for the back-off sets
dropping 6 kg for the next set
dropped two sets, short of time
week 14 of the plan
in week 14 we test
rolled up early to the gym
disc brakes squeaked on the way
head up, eyes ahead
head through on the jerk
knocked a plate off the rack
was knocked out of the final
foot drops back in the split
shoulder height pulls 3x5
popped in for a quick session
peed before the weigh-in
12 yrs of lifting and still learning
grade 8 bolts on the new rack
knees out, no shots at 90
hat kein Problem, darf man nicht vergessen
je ne peux pas me plaindre
no puedo esperar
can't believe how light that was
didn't hurt to try
hurt nobody to wait
gave out the prizes
old tricks still work: chest up
we can't train on Sundays, gym is shut
can't make it on Friday
can't hear the bell in there
can't miss at that weight
no barbell today, ran hills
ei kipua
nem fáj
geen pijn
ingen smärta
ikke vondt
nebolí to vůbec
ağrı yok
nu mă doare
δεν πονάει
痛くない
통증 없음
没有疼痛
筋肉痛
les poignets ont bien tenu
head low in the pull
can only praise the spotters
told not to worry about the miss
told to rest the bar on the shoulders
half the weights were missing
the crowd went white hot
heart in it today
in stitches at the joke
no landing pad, used rubber
plastered the poster on the wall
stair run as warm-up
pulled from blocks, back flat
locks when the key turns
wreck of a warm-up, good work sets
legs knackered
not right under the bar yet
under 15 minutes between sets
elbow isn't straight in the pull
shoulder in line with the bar
can't squat below parallel with this stance
can't pull slack out
shouldn't jerk with soft knees
not supposed to press out, work on lockout
left my boots at home
not going heavy today
went up from 60 to 64 kg
weight went from 60 to 70 in the snatch
weight dropped from 90 to 80 for the triples
stay over 80 percent
avoid squat jumps after leg day
squats off today
leave snatches for Friday
keep jerks in the plan
not allowed to use straps in this test
only allowed one coach on the platform
the physio course was fine
he is 14 and a half kilos lighter
year 5 of lifting
class 5 at the gym
head judge gave two reds
head coach was there
no lifting shoes today
no barbell collars today
no weights on the bar for warm-up
knocked out the last set fast
collar came off and plates fell on the floor
bar came down on my chest
hit in the face by the ball? no
her first year as a U17 lifter
watched the U15 girls lift
in week 14 of the block
baby steps with the weight
newborn lifter, third session
ran into a wall at 90
strain gauge on the bar
hot car, long trip
trunk a bit stiff
speed went, so stopped
confidence went after the miss
jerk went well
groin stretched before
calf raises 3x12
shoulder height, elbow high, wrist loose
bend the knees more in the dip
foot drops too early in the split
CK session 100 kg
new pb 100/125
squat 165/100 jerk
old tricks still help
not quite there yet with 100
comes back when tired: early arm bend
gave the bar back
gave up the jerk
gave in to cake
boot on, boot off
plaster on the thumb
sling shots in the dip
splint in the drawer
brace position held well
bodyweight only today, hotel
only light today
keep it light this week
no squats this week, deload
not squatting this week
we don't jerk this week
skipped overhead this week
stay under 80 this week
upper back collapsed in the dip
arms collapsed, lost it
back squat is dead today
knees collapsed inward
chest fell forward
"""


def heard(text: str) -> bool:
    trade = load()
    return bool(hearing.hear(text, 2026, trade) or alarms.hear(text, 2026, trade))


@each("text", (TOLD.strip() + UNREAD).strip().splitlines())
def test_a_short_remark_of_a_body_that_is_not_well_is_heard(text: str) -> None:
    assert heard(text)


@each("text", HONEST.strip().splitlines())
def test_a_remark_on_technique_or_tired_muscles_is_not_heard_as_pain(text: str) -> None:
    assert not heard(text)
