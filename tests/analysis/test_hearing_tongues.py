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
"""


def heard(text: str) -> bool:
    trade = load()
    return bool(hearing.hear(text, 2026, trade) or alarms.hear(text, 2026, trade))


@each("text", TOLD.strip().splitlines())
def test_a_short_remark_of_a_body_that_is_not_well_is_heard(text: str) -> None:
    assert heard(text)


@each("text", HONEST.strip().splitlines())
def test_a_remark_on_technique_or_tired_muscles_is_not_heard_as_pain(text: str) -> None:
    assert not heard(text)
