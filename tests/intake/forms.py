"""The same two weeks of training as different people keep them: name -> files and lines for lifter.toml."""

from dataclasses import dataclass, field

HEAD = 'name = "Maren Holt"\nstandards = "women"\n'
GOAL = '[[goal]]\nlift = "snatch"\nkg = 64\n'

TIDY = """date,lift,kg,sets,reps,made
2026-01-05,snatch,50,2,2,
2026-01-05,snatch,55,1,1,
2026-01-05,snatch,57.5,1,1,0
2026-01-05,front squat,80,3,3,
2026-01-09,clean and jerk,65,1,1,
2026-01-09,clean and jerk,70,1,1,0
2026-01-09,back squat,90,3,5,
2026-01-14,snatch,52.5,3,2,
2026-01-14,snatch,60,1,1,
2026-01-14,front squat,82.5,3,3,
2026-01-16,clean and jerk,72.5,1,1,
2026-01-16,clean and jerk,75,1,1,0
2026-01-16,back squat,92.5,3,5,
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One way to keep the log; `top` stands above the goal in lifter.toml, `tables` below it."""

    files: dict[str, str]
    layout: str
    top: str = ""
    tables: str = ""
    says: tuple[str, ...] = field(default=())


def form(
    text: str,
    layout: str,
    *,
    file: str = "training.csv",
    top: str = "",
    tables: str = "",
    says: tuple[str, ...] = (),
) -> Form:
    return Form(files={file: text}, layout=layout, top=top, tables=tables, says=says)


WEEKS = "first_week = 2026-01-05\n"

FORMS: dict[str, Form] = {
    # rows
    "english headings": form(
        """Date,Exercise,Weight (kg),Sets,Reps,Result,Notes
2026-01-05,Snatch,50,2,2,made,
2026-01-05,Snatch,55,1,1,made,
2026-01-05,Snatch,57.5,1,1,missed,behind me
2026-01-05,Front Squat,80,3,3,made,
2026-01-09,Clean & Jerk,65,1,1,made,
2026-01-09,Clean & Jerk,70,1,1,missed,
2026-01-09,Back Squat,90,3,5,made,
2026-01-14,Snatch,52.5,3,2,made,
2026-01-14,Snatch,60,1,1,made,
2026-01-14,Front Squat,82.5,3,3,made,
2026-01-16,Clean & Jerk,72.5,1,1,made,
2026-01-16,Clean & Jerk,75,1,1,missed,
2026-01-16,Back Squat,92.5,3,5,made,
""",
        "rows",
    ),
    "two rows of headings": form(
        """Trainingslog 2026,,,,,
Date,Exercise,Work sets,,,Notes
,,kg,Sets,Reps,
2026-01-05,Snatch,50,2,2,
2026-01-05,Snatch,55,1,1,
2026-01-05,Snatch,57.5,1,1,missed
2026-01-05,Front Squat,80,3,3,
2026-01-09,Clean & Jerk,65,1,1,
2026-01-09,Clean & Jerk,70,1,1,missed
2026-01-09,Back Squat,90,3,5,
2026-01-14,Snatch,52.5,3,2,
2026-01-14,Snatch,60,1,1,
2026-01-14,Front Squat,82.5,3,3,
2026-01-16,Clean & Jerk,72.5,1,1,
2026-01-16,Clean & Jerk,75,1,1,missed
2026-01-16,Back Squat,92.5,3,5,
""",
        "rows",
        says=("headings in line 3",),
    ),
    "german sheet": form(
        """Trainingstagebuch;;;;;
;;;;;
Datum;Übung;Gewicht;Sätze;Wdh.;Gültig;Bemerkung
05.01.2026;Reißen;50;2;2;ja;
05.01.2026;Reißen;55;1;1;ja;
05.01.2026;Reißen;57,5;1;1;nein;
05.01.2026;Frontkniebeuge;80;3;3;ja;
09.01.2026;Stoßen;65;1;1;ja;
09.01.2026;Stoßen;70;1;1;nein;nach vorn
09.01.2026;Kniebeuge;90;3;5;ja;
14.01.2026;Reißen;52,5;3;2;ja;
14.01.2026;Reißen;60;1;1;ja;
14.01.2026;Frontkniebeuge;82,5;3;3;ja;
16.01.2026;Stoßen;72,5;1;1;ja;
16.01.2026;Stoßen;75;1;1;nein;
16.01.2026;Kniebeuge;92,5;3;5;ja;
""",
        "rows",
        says=("'kniebeuge' taken for back squat", "headings in line 3"),
    ),
    "spanish sheet, dates once": form(
        """Fecha;Ejercicio;Peso (kg);Series;Repeticiones;Observaciones
05/01/2026;Arrancada;50;2;2;
;Arrancada;55;1;1;
;Arrancada;57,5;1;1;nulo
;Sentadilla frontal;80;3;3;
09/01/2026;Dos tiempos;65;1;1;sin fallos
;Dos tiempos;70;1;1;fallo
;Sentadilla;90;3;5;
Total;;;;;
14/01/2026;Arrancada;52,5;3;2;
;Arrancada;60;1;1;
;Sentadilla frontal;82,5;3;3;
16/01/2026;Dos tiempos;72,5;1;1;
;Dos tiempos;75;1;1;fallado
;Sentadilla;92,5;3;5;
""",
        "rows",
        says=("rows of totals passed over: 1", "a date holds"),
    ),
    "french sheet": form(
        """Date\tMouvement\tCharge (kg)\tSéries\tRéps\tRaté
05/01/26\tArraché\t50\t2\t2\t
05/01/26\tArraché\t55\t1\t1\t
05/01/26\tArraché\t57,5\t1\t1\tx
05/01/26\tSquat avant\t80\t3\t3\t
09/01/26\tÉpaulé-jeté\t65\t1\t1\t
09/01/26\tÉpaulé-jeté\t70\t1\t1\tx
09/01/26\tSquat nuque\t90\t3\t5\t
14/01/26\tArraché\t52,5\t3\t2\t
14/01/26\tArraché\t60\t1\t1\t
14/01/26\tSquat avant\t82,5\t3\t3\t
16/01/26\tÉpaulé-jeté\t72,5\t1\t1\t
16/01/26\tÉpaulé-jeté\t75\t1\t1\tx
16/01/26\tSquat nuque\t92,5\t3\t5\t
""",
        "rows",
    ),
    "russian sheet": form(
        """Дата;Упражнение;Вес;Подходы;Повторения;Примечание
05.01.2026;Рывок;50;2;2;
05.01.2026;Рывок;55;1;1;
05.01.2026;Рывок;57,5;1;1;не взял
05.01.2026;Присед на груди;80;3;3;
09.01.2026;Толчок;65;1;1;
09.01.2026;Толчок;70;1;1;не взял
09.01.2026;Присед на спине;90;3;5;
14.01.2026;Рывок;52,5;3;2;
14.01.2026;Рывок;60;1;1;
14.01.2026;Присед на груди;82,5;3;3;
16.01.2026;Толчок;72,5;1;1;
16.01.2026;Толчок;75;1;1;не взял
16.01.2026;Присед;92,5;3;5;
""",
        "rows",
    ),
    "polish sheet": form(
        """Data;Ćwiczenie;Ciężar;Serie;Powtórzenia;Zaliczone
5.01.2026;Rwanie;50;2;2;tak
5.01.2026;Rwanie;55;1;1;tak
5.01.2026;Rwanie;57,5;1;1;nie
5.01.2026;Przysiad przedni;80;3;3;tak
9.01.2026;Podrzut;65;1;1;tak
9.01.2026;Podrzut;70;1;1;nie
9.01.2026;Przysiad tylny;90;3;5;tak
14.01.2026;Rwanie;52,5;3;2;tak
14.01.2026;Rwanie;60;1;1;tak
14.01.2026;Przysiad przedni;82,5;3;3;tak
16.01.2026;Podrzut;72,5;1;1;tak
16.01.2026;Podrzut;75;1;1;nie
16.01.2026;Przysiad tylny;92,5;3;5;tak
""",
        "rows",
    ),
    "italian sheet": form(
        """Data;Esercizio;Carico (kg);Serie;Ripetizioni;Note
05/01/2026;Strappo;50;2;2;
05/01/2026;Strappo;55;1;1;
05/01/2026;Strappo;57,5;1;1;nullo
05/01/2026;Squat frontale;80;3;3;
09/01/2026;Slancio;65;1;1;
09/01/2026;Slancio;70;1;1;sbagliato
09/01/2026;Squat dietro;90;3;5;
14/01/2026;Strappo;52,5;3;2;
14/01/2026;Strappo;60;1;1;
14/01/2026;Squat frontale;82,5;3;3;
16/01/2026;Slancio;72,5;1;1;
16/01/2026;Slancio;75;1;1;nullo
16/01/2026;Squat dietro;92,5;3;5;
""",
        "rows",
    ),
    "portuguese sheet": form(
        """Data;Exercício;Carga;Séries;Repetições;Falhas
05/01/2026;Arranco;50;2;2;0
05/01/2026;Arranco;55;1;1;0
05/01/2026;Arranco;57,5;1;1;1
05/01/2026;Agachamento frontal;80;3;3;0
09/01/2026;Arremesso;65;1;1;0
09/01/2026;Arremesso;70;1;1;1
09/01/2026;Agachamento;90;3;5;0
14/01/2026;Arranco;52,5;3;2;0
14/01/2026;Arranco;60;1;1;0
14/01/2026;Agachamento frontal;82,5;3;3;0
16/01/2026;Arremesso;72,5;1;1;0
16/01/2026;Arremesso;75;1;1;1
16/01/2026;Agachamento;92,5;3;5;0
""",
        "rows",
    ),
    "weeks and weekdays in rows": form(
        """Week,Day,Exercise,Load,Sets,Reps,Made
1,Monday,Snatch,50,2,2,yes
1,Monday,Snatch,55,1,1,yes
1,Monday,Snatch,57.5,1,1,no
1,Monday,Front squat,80,3,3,yes
1,Friday,C&J,65,1,1,yes
1,Friday,C&J,70,1,1,no
1,Friday,Squat,90,3,5,yes
2,Wed,Snatch,52.5,3,2,yes
2,Wed,Snatch,60,1,1,yes
2,Wed,Front squat,82.5,3,3,yes
2,Fri,C&J,72.5,1,1,yes
2,Fri,C&J,75,1,1,no
2,Fri,Squat,92.5,3,5,yes
""",
        "rows",
        top=WEEKS,
    ),
    "a row a set, with its number": form(
        """Date,Exercise,Set,Weight,Reps,OK
1/5/26,Snatch,1,50kg,2,✓
1/5/26,Snatch,2,50kg,2,✓
1/5/26,Snatch,3,55kg,1,✓
1/5/26,Snatch,4,57.5kg,1,✗
1/5/26,Front squat,1,80kg,3,✓
1/5/26,Front squat,2,80kg,3,✓
1/5/26,Front squat,3,80kg,3,✓
1/9/26,C&J,1,65kg,1,✓
1/9/26,C&J,2,70kg,1,✗
1/9/26,Back squat,1,90kg,5,✓
1/9/26,Back squat,2,90kg,5,✓
1/9/26,Back squat,3,90kg,5,✓
1/14/26,Snatch,1,52.5kg,2,✓
1/14/26,Snatch,2,52.5kg,2,✓
1/14/26,Snatch,3,52.5kg,2,✓
1/14/26,Snatch,4,60kg,1,✓
1/14/26,Front squat,1,82.5kg,3,✓
1/14/26,Front squat,2,82.5kg,3,✓
1/14/26,Front squat,3,82.5kg,3,✓
1/16/26,C&J,1,72.5kg,1,✓
1/16/26,C&J,2,75kg,1,✗
1/16/26,Back squat,1,92.5kg,5,✓
1/16/26,Back squat,2,92.5kg,5,✓
1/16/26,Back squat,3,92.5kg,5,✓
""",
        "rows",
        says=("months before days",),
    ),
    "a column a set": form(
        """Date,Exercise,Set 1,Set 2,Set 3,Set 4
2026-01-05,Snatch,50x2,50x2,55,57.5 miss
2026-01-05,Front squat,80x3,80x3,80x3,
2026-01-09,C&J,65x1,70 miss,,
2026-01-09,Back squat,90x5,90x5,90x5,
2026-01-14,Snatch,52.5x2,52.5x2,52.5x2,60x1
2026-01-14,Front squat,82.5x3,82.5x3,82.5x3,
2026-01-16,C&J,72.5x1,75 miss,,
2026-01-16,Back squat,92.5x5,92.5x5,92.5x5,
""",
        "form",
    ),
    "pairs": form(
        """Date,Exercise,Kg 1,Reps 1,Kg 2,Reps 2,Kg 3,Reps 3,Kg 4,Reps 4
2026-01-05,Snatch,50,2,50,2,55,1,57.5 miss,1
2026-01-05,Front squat,80,3,80,3,80,3,,
2026-01-09,C&J,65,1,70 miss,1,,,,
2026-01-09,Back squat,90,5,90,5,90,5,,
2026-01-14,Snatch,52.5,2,52.5,2,52.5,2,60,1
2026-01-14,Front squat,82.5,3,82.5,3,82.5,3,,
2026-01-16,C&J,72.5,1,75 miss,1,,,,
2026-01-16,Back squat,92.5,5,92.5,5,92.5,5,,
""",
        "form",
    ),
    "pairs under sets": form(
        """Datum;Übung;Satz 1;;Satz 2;;Satz 3;;Satz 4;
;;Gewicht;Wdh;Gewicht;Wdh;Gewicht;Wdh;Gewicht;Wdh
05.01.2026;Reißen;50;2;50;2;55;1;57,5 ungültig;1
05.01.2026;Kniebeuge vorn;80;3;80;3;80;3;;
09.01.2026;Stoßen;65;1;70 ungültig;1;;;;
09.01.2026;Kniebeuge hinten;90;5;90;5;90;5;;
14.01.2026;Reißen;52,5;2;52,5;2;52,5;2;60;1
14.01.2026;Kniebeuge vorn;82,5;3;82,5;3;82,5;3;;
16.01.2026;Stoßen;72,5;1;75 ungültig;1;;;;
16.01.2026;Kniebeuge hinten;92,5;5;92,5;5;92,5;5;;
""",
        "form",
    ),
    "pairs, repetitions first": form(
        """Date,Exercise,S1 reps,S1 load (kg),S2 reps,S2 load (kg),S3 reps,S3 load (kg),S4 reps,S4 load (kg)
1/5/2026,Snatch,2,50,2,50,1,55,1,57.5 miss
1/5/2026,Front squat,3,80,3,80,3,80,,
1/9/2026,C&J,1,65,1,70 miss,,,,
1/9/2026,Back squat,5,90,5,90,5,90,,
1/14/2026,Snatch,2,52.5,2,52.5,2,52.5,1,60
1/14/2026,Front squat,3,82.5,3,82.5,3,82.5,,
1/16/2026,C&J,1,72.5,1,75 miss,,,,
1/16/2026,Back squat,5,92.5,5,92.5,5,92.5,,
""",
        "form",
        says=("months before days",),
    ),
    # by lift
    "columns of lifts": form(
        """Date,Snatch,C&J,Front squat,Back squat,Notes
2026-01-05,"50x2x2, 55, 57.5 x",,80x3x3,,slow
2026-01-09,,"65, 70 x",,90x5x3,
2026-01-14,"52.5x2x3, 60",,82.5x3x3,,
2026-01-16,,"72.5, 75 x",,92.5x5x3,
""",
        "by lift",
        says=("'x' taken for a miss",),
    ),
    "columns of lifts, sets first": form(
        """Day;Snatch;Clean and jerk;FS;BS
5 Jan 2026;2x2@50 / 1@55 / 1@57.5 miss;;3x3@80;
9 Jan 2026;;1@65, 1@70 fail;;3x5@90
14 Jan 2026;3x2@52.5, 1@60;;3x3@82.5;
16 Jan 2026;;1@72.5, 1@75 ❌;;3x5@92.5
""".replace(" / ", ", "),
        "by lift",
        tables='[columns.training]\nDay = "date"\n',
    ),
    "german columns of lifts": form(
        """Tag;Reißen;Stoßen;Kniebeuge vorn;Kniebeuge hinten
Mo 05.01.2026;50/2x2, 55, (57,5);;80/3x3;
Fr 09.01.2026;;65, (70);;90/5x3
Summe;;;;
Mi 14.01.2026;52,5/2x3, 60;;82,5/3x3;
Fr 16.01.2026;;72,5, (75);;92,5/5x3
""",
        "by lift",
        tables='[columns.training]\nTag = "date"\n',
        says=("'()' taken for a miss",),
    ),
    # weeks
    "grid of weeks": form(
        """,Week 1,Week 2
Monday,,
Snatch,"50x2x2, 55, 57.5 miss",
Front squat,80x3x3,
Wednesday,,
Snatch,,"52.5x2x3, 60"
Front squat,,82.5x3x3
Friday,,
Clean & Jerk,"65, 70 miss","72.5, 75 miss"
Back squat,90x5x3,92.5x5x3
""",
        "weeks",
        top=WEEKS,
    ),
    "grid of weeks with weekdays in a column": form(
        """Plan of the spring;;;
Day;Exercise;W1;W2
Mon;Snatch;2x2@50, 55x1, 57.5 ✗;
;Front squat;3x3@80;
Wed;Snatch;;3x2@52.5, 60x1
;Front squat;;3x3@82.5
Fri;C&J;65x1, 70 ✗;72.5x1, 75 ✗
;Back squat;3x5@90;3x5@92.5
""",
        "weeks",
        top=WEEKS,
    ),
    "spanish grid": form(
        """Ejercicio;Semana 1;Semana 2
Lunes;;
Arranque;2x2 con 50, 55, 57,5 nulo;
Sentadilla frontal;3x3 con 80;
Miércoles;;
Arranque;;3x2 con 52,5, 60
Sentadilla frontal;;3x3 con 82,5
Viernes;;
Dos tiempos;65, 70 nulo;72,5, 75 nulo
Sentadilla trasera;3x5 con 90;3x5 con 92,5
""",
        "weeks",
        top=WEEKS,
    ),
    "a row a lift, a column a day": form(
        """Lift,2026-01-05,2026-01-09,2026-01-14,2026-01-16
Snatch,"50x2x2, 55, 57.5 miss",,"52.5x2x3, 60",
C&J,,"65, 70 miss",,"72.5, 75 miss"
Front squat,80x3x3,,82.5x3x3,
Back squat,,90x5x3,,92.5x5x3
Total,,,,
""",
        "weeks",
    ),
    # form
    "answers of a form": form(
        """Timestamp,Exercise,Weights used (kg),Sets x Reps,Any misses?
2026/01/05 6:22:03 PM GMT+1,Snatch,"50, 55, 57.5","2x2, 1x1, 1x0",
2026/01/05 6:40:00 PM GMT+1,Front squat,80,3x3,
2026/01/09 6:22:03 PM GMT+1,Clean & Jerk,"65, 70","1x1, 1x0",
2026/01/09 6:40:00 PM GMT+1,Back squat,90,3x5,
2026/01/14 6:22:03 PM GMT+1,Snatch,"52.5, 60","3x2, 1x1",
2026/01/14 6:40:00 PM GMT+1,Front squat,82.5,3x3,
2026/01/16 6:22:03 PM GMT+1,Clean & Jerk,"72.5, 75","1x1, 1x0",
2026/01/16 6:40:00 PM GMT+1,Back squat,92.5,3x5,
""",
        "form",
        tables='[columns.training]\n"Weights used (kg)" = "kg"\n',
    ),
    "answers in one cell": form(
        """Zeitstempel;Übung;Leistung;Kommentar
05.01.2026 18:22:03;Reißen;50x2x2, 55x1, 57,5 Fehlversuch;
05.01.2026 18:40:12;Kniebeuge vorn;80x3x3;
09.01.2026 18:22:03;Stoßen;65x1, 70 Fehlversuch;lief gut
09.01.2026 18:40:12;Kniebeuge hinten;90x5x3;
14.01.2026 18:22:03;Reißen;52,5x2x3, 60x1;
14.01.2026 18:40:12;Kniebeuge vorn;82,5x3x3;
16.01.2026 18:22:03;Stoßen;72,5x1, 75 Fehlversuch;
16.01.2026 18:40:12;Kniebeuge hinten;92,5x5x3;
""",
        "form",
    ),
    "loads in a row, marks in a row": form(
        """Date,Movement,Load,Reps,Made
2026-01-05,Snatch,"50, 50, 55, 57.5","2, 2, 1, 1",
2026-01-05,Front squat,80,3,
""".replace(",Made", ",Result").replace('1, 1",', '1, 1","yes, yes, yes, no"')
        + """2026-01-05,Front squat,80x3x2,,
2026-01-09,C&J,"65, 70",1,"o, x"
2026-01-09,Back squat,90x5x3,,
2026-01-14,Snatch,"52.5x2x3, 60x1",,
2026-01-14,Front squat,82.5x3x3,,
2026-01-16,C&J,"72.5, 75",1,"o, x"
2026-01-16,Back squat,92.5x5x3,,
""",
        "form",
    ),
    "weights with their reps": form(
        """date,lift,weight
2026-01-05,snatch,"50x2, 50x2, 55x1, 57.5 fail"
2026-01-05,FS,80x3x3
2026-01-09,CJ,65 o
2026-01-09,CJ,70 fail
2026-01-09,BS,90x5x3
2026-01-14,snatch,"52.5x2x3, 60x1"
2026-01-14,FS,82.5x3x3
2026-01-16,CJ,72.5 o
2026-01-16,CJ,75 fail
2026-01-16,BS,92.5x5x3
""",
        "form",
    ),
    # diary
    "phone diary": form(
        """Mon 5 Jan 2026
Snatch 50x2x2, 55, 57.5 miss
felt slow today
Front squat 80x3x3

Fri 9 Jan 2026 - evening
C&J: 65, 70 miss
Back squat 3x5 @ 90kg

Wed 14 Jan 2026
snatch
52.5x2x3
60
front squat 3x3@82.5

Fri 16 Jan 2026
C&J
72.5
75 ❌
Back squat
92.5 kg x 5 x 3
""",
        "diary",
        file="training.txt",
    ),
    "markdown diary": form(
        """# Log

## 2026-01-05
- **Snatch**: 50/2x2, 55/1, 57.5 no lift
- **Front squat**: 80/3x3

## 2026-01-09
- **Clean & jerk**: 65/1, 70 no lift
- **Back squat**: 90/5x3
- slept badly

## 2026-01-14
- **Snatch**: 52.5/2x3, 60/1
- **Front squat**: 82.5/3x3

## 2026-01-16
- **Clean & jerk**: 72.5/1, 75 no lift
- **Back squat**: 92.5/5x3
""",
        "diary",
        file="training.md",
    ),
    "french diary": form(
        """Lundi 5 janvier 2026
Arraché : 2x2 à 50, 55, 57,5 raté
Squat avant : 3x3 à 80
Vendredi 9 janvier 2026
Épaulé-jeté : 65, 70 raté
Squat nuque : 3x5 à 90
bonne séance, aucun échec au squat
Mercredi 14 janvier 2026
Arraché : 3x2 à 52,5, 60
Squat avant : 3x3 à 82,5
Vendredi 16 janvier 2026
Épaulé-jeté : 72,5, 75 raté
Squat nuque : 3x5 à 92,5
""",
        "diary",
        file="training.txt",
    ),
    "diary of weeks": form(
        """Week 1
Monday
Snatch 2x2@50 1@55 1@57.5 miss
Front squat 3x3@80
Friday
C&J 65x1 70x0
Squat 3x5@90
Week 2
Wednesday
Snatch 3x2@52.5, 60x1
Front squat 3x3@82.5
Friday
C&J 72.5x1 75x0
Squat 3x5@92.5
""",
        "diary",
        file="training.txt",
        top=WEEKS,
    ),
    "two exports of one month": Form(
        files={
            "training/one.csv": """date,lift,kg,sets,reps,made
2026-01-05,snatch,50,2,2,
2026-01-05,snatch,55,1,1,
2026-01-05,snatch,57.5,1,1,0
2026-01-05,front squat,80,3,3,
""",
            "training/2026-01.csv": """Date,Snatch,C&J,FS,BS
9,,"65, 70 ✗",,90x5x3
14,"52.5x2x3, 60",,82.5x3x3,
16,,"72.5, 75 ✗",,92.5x5x3
""",
        },
        layout="by lift",
    ),
}
