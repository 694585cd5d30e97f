package org.hoodkeeper.exchange;

import java.util.EnumMap;
import java.util.Map;

/** An invented site as files, one of each kind, in the order in which an empty site takes them. */
public final class WholeSite {

    public static final Map<FileKind, String> FILES = new EnumMap<>(FileKind.class);

    static {
        FILES.put(FileKind.WORKERS, """
                number,name,employer
                W-1,"Invented, Ada",
                W-2,Bo Invented,Dustless Contracts
                W-3,=cmd|'/c calc'!A1,Dustless Contracts
                """);
        FILES.put(FileKind.TASKS, "code\nBLAST\nCUT\n");
        FILES.put(FileKind.INSTRUMENTS, "code\nIND-1\nIND-2\n");
        FILES.put(FileKind.SUPPLIES, "code\nAIR-1\n");
        FILES.put(FileKind.MODELS, """
                code,from,name,type,classes,skin_contact,sizes,seal_revision,minimum_flow,flow_at,battery_minutes,filters,products,max_wash_celsius,slots
                HOOD-A,2025-01-01,Invented hood,powered-hood,uk=TH2; us-federal=powered helmet/hood,no,M; L,R1,170,local,480,particle,"OX-4=1000 ppm available chlorine, 600 s",40,"visor=V-1|V-2, 24 months, 30.5 C, bears OX-4:900, by hand-wash|spray, 300 washes; hose=H-1; filter=F-1, never washed"
                MASK-B,2025-01-01,Invented mask,full-mask,uk=full P3,no,S; M,R1,,local,,particle; a,,,
                """);
        FILES.put(FileKind.SETS, """
                label,from,model,size,seal_revision,supply,emergency,store,serial
                H-1,2025-02-03T08:00+00:00,HOOD-A,M,R1,,no,North store,SN-0001
                M-1,2025-02-03T08:00+00:00,MASK-B,S,R1,,yes,,
                """);
        FILES.put(FileKind.LIMITS, """
                substance,from,value,unit,idlh,filters,air_fed_only,source,mark,short_term,ceiling,filter_limit
                silica,2025-01-01,0.1,mg/m3,25,particle,no,EH40 table 1,restated,0.3,1,5
                """);
        FILES.put(FileKind.DECISIONS, """
                key,from,value,owner,reason
                notice.period,2025-01-01,P45D,Safety officer,"Seats are booked six weeks ahead."
                """);
        FILES.put(FileKind.TASK_BASES, """
                source_id,task,from,exposures,mixture,atmosphere,interfaces,work_rate,statistic,last_day,note,results_since,shift_hours,long_shift,assessor,why_below,told_claimed
                B-1,BLAST,2025-02-01,silica=1.42 mg/m3; iron=2.0 mg/m3,additive,ordinary,powered-hood; full-mask,heavy,UTL95_70,2027-01-31,"Two lines
                of text",2025-01-15,12,brief-scala,"Invented, Hy","Extraction was off, then mended",2025-02-02
                """);
        FILES.put(FileKind.POSTINGS, """
                source_id,worker,task,from,until,change,told_claimed
                P-1,W-1,BLAST,2025-03-01,2026-02-28,posted,
                P-2,W-2,BLAST,2025-03-01,,posted,
                """);
        FILES.put(FileKind.TRAININGS, """
                source_id,worker,model,at,outcome,demonstrated,content_version,external,trainer,told_claimed
                T-1,W-1,HOOD-A,2025-03-04T10:00+00:00,pass,yes,3,no,Cy Invented,2025-03-05
                T-2,W-2,HOOD-A,2025-03-04,pass,no,,yes,,
                """);
        FILES.put(FileKind.MEDICAL_OUTCOMES, """
                source_id,worker,at,result,interfaces,max_wear_minutes,max_wbgt,max_work_rate,never_alone,review_on,organisation,told_claimed
                MO-1,W-1,2025-03-01T09:00+00:00,fit,,,,,no,2027-03-01,Invented Health,
                MO-2,W-2,2025-03-01T09:00+00:00,fit-with-limits,powered-hood,240,25,moderate,yes,,,
                """);
        FILES.put(FileKind.FIT_TESTS, """
                source_id,worker,variant,at,method,protocol,exercises,outcome,negative_mode,tester,told_claimed
                F-1,W-1,MASK-B/S/R1,2025-03-02T11:00+00:00,quantitative,seven exercises,2410; 3050; 2200; 2900; 2600; 2100; 2750,pass,yes,Di Invented,
                """);
        FILES.put(FileKind.BOOKINGS, """
                source_id,worker,at,what,late_because,told_claimed
                BK-1,W-2,2031-01-05T09:00+00:00,fit-test,No seat before,
                """);
        FILES.put(FileKind.HOLDS, """
                source_id,about,at,step,ends,why,reason,told_claimed
                HO-2,set:H-1,2025-06-03T09:00+01:00,released,HO-1,recall,,
                HO-1,set:H-1,2025-06-01T09:00+01:00,placed,,recall,Lot 7,
                HO-3,worker:W-2,2025-06-01T09:00+01:00,placed,,suspended,-no mask worn,
                """);
        FILES.put(FileKind.EMPLOYMENTS, """
                source_id,worker,from,change,last_day,told_claimed
                EM-1,W-2,2025-10-01,ended,2025-09-30,
                EM-2,W-2,2025-11-03,resumed,,
                """);
        FILES.put(FileKind.LEGAL_HOLDS, """
                source_id,about,at,step,ends,reason,told_claimed
                LH-2,,2025-06-09T09:00+01:00,released,LH-1,The inspector wrote that it is closed,
                LH-1,,2025-06-02T09:00+01:00,placed,,Inspection of the whole works,
                LH-3,worker:W-2,2025-06-02T09:00+01:00,placed,,A claim,
                """);
        FILES.put(FileKind.SYMPTOM_REPORTS, """
                source_id,worker,at,step,ends,note,told_claimed
                SY-1,W-1,2025-07-01T12:00+01:00,reported,,Tight chest,
                SY-2,W-1,2025-07-02T12:00+01:00,reviewed,SY-1,,
                """);
        FILES.put(FileKind.OBSERVATIONS, """
                source_id,worker,at,seen,note,told_claimed
                O-1,W-2,2025-07-03T12:00+01:00,hair-at-seal,,
                """);
        FILES.put(FileKind.WEARS, """
                source_id,worker,set,task,from,until,step,told_claimed
                WE-1,W-1,H-1,BLAST,2025-07-04T07:00+01:00,2025-07-04T09:30+01:00,whole,
                WE-2,W-1,H-1,BLAST,2025-07-04T10:00+01:00,,entry,
                """);
        FILES.put(FileKind.PRE_USE_CHECKS, """
                source_id,set,worker,at,items,reading,indicator,placement,charge_percent,note,told_claimed
                PC-1,H-1,W-1,2025-07-04T06:50+01:00,right-set=pass; visor=pass,185.5,IND-1,pass,98,,
                """);
        FILES.put(FileKind.CUSTODY, """
                source_id,set,at,claim,worker,worn,note,told_claimed
                C-1,H-1,2025-03-05T07:00+00:00,issued,W-1,,,
                C-2,H-1,2025-08-01T17:00+01:00,returned,,yes,,
                """);
        FILES.put(FileKind.CALIBRATIONS, """
                source_id,instrument,at,outcome,as_found_in_tolerance,factor,uncertainty,celsius,hectopascals,last_day,certificate,as_found_factor,told_claimed
                CA-1,IND-1,2025-01-10T09:00+00:00,pass,yes,1.06,2.5,20,1013.25,2026-01-10,CERT-9,1.05,
                """);
        FILES.put(FileKind.FLOW_CHECKS, """
                source_id,set,at,reading,instrument,celsius,hectopascals,told_claimed
                FC-1,H-1,2025-07-01T06:00+01:00,190.0,IND-1,18,1005,
                FC-2,H-1,2025-07-02T06:00+01:00,190,IND-2,,,
                """);
        FILES.put(FileKind.EXAMINATIONS, """
                source_id,set,at,outcome,reading,indicator,examiner,note,told_claimed
                E-1,H-1,2025-07-01T06:30+01:00,pass,188,IND-1,Ed Invented,,
                """);
        FILES.put(FileKind.BATTERY_TESTS, """
                source_id,set,at,ran_minutes,filter_loaded,serial,tester,told_claimed
                BT-1,H-1,2025-07-01T14:00+01:00,340,yes,B-77,Ed Invented,
                """);
        FILES.put(FileKind.CLEANINGS, """
                source_id,set,at,method,product,strength,strength_basis,wet_seconds,celsius,told_claimed
                CL-1,H-1,2025-08-01T18:00+01:00,wash-and-disinfect,OX-4,1000,ppm available chlorine,660,30,
                """);
        FILES.put(FileKind.PART_CHANGES, """
                source_id,set,slot,at,part,lot,serial,made_on,fitter_trained,fitter,told_claimed
                PT-1,H-1,visor,2025-05-01T09:00+01:00,V-1,L-77,,2025-01-15,yes,Flo Invented,
                """);
        FILES.put(FileKind.STOCK_RECEIPTS, """
                source_id,item,at,pieces,lot,last_day,ordered_on,delivery,told_claimed
                SR-1,V-1,2025-04-10T09:00+01:00,12,L-77,2027-04-30,2025-03-27,Note 8,
                """);
        FILES.put(FileKind.STOCK_USES, """
                source_id,item,at,pieces,use,lot,set,told_claimed
                SU-1,V-1,2025-05-01T09:00+01:00,1,fitted,L-77,H-1,
                """);
        FILES.put(FileKind.STOCK_COUNTS, """
                source_id,item,at,pieces,lot,last_day,told_claimed
                SC-1,V-1,2025-06-02T09:00+01:00,11,L-77,2027-04-30,
                """);
        FILES.put(FileKind.DEFECTS, """
                source_id,set,at,step,ends,part,note,told_claimed
                D-1,H-1,2025-05-02T09:00+01:00,found,,visor,"He said ""scratched"" today",
                D-2,H-1,2025-05-03T09:00+01:00,mended,D-1,,,
                """);
        FILES.put(FileKind.AIR_TESTS, """
                source_id,supply,at,outcome,edition,oxygen_percent,carbon_monoxide_ppm,carbon_dioxide_ppm,oil_mg_per_m3,dew_point_celsius,tester,uncertainty_percent,lowest_celsius,litres_per_minute,told_claimed
                A-1,AIR-1,2025-05-01T09:00+01:00,pass,EN 12021:2014,20.9,1.5,420,0.1,-45,Gus Invented,10,-5,900,
                """);
        FILES.put(FileKind.SUPPLY_MOVES, """
                source_id,supply,at,place,told_claimed
                SM-1,AIR-1,2025-05-20T09:00+01:00,@ gate 4,
                """);
        FILES.put(FileKind.TASK_TRIGGERS, """
                source_id,task,at,step,ends,what,note,told_claimed
                TT-1,BLAST,2025-05-20T09:00+01:00,opened,,new grit,,
                TT-2,BLAST,2025-05-25T09:00+01:00,closed,TT-1,new grit,Sampled again,
                """);
        FILES.put(FileKind.EXPOSURE_RESULTS, """
                source_id,task,substance,at,value,unit,below_detection,minutes,method,person,laboratory,group,period,parts,told_claimed
                X-1,BLAST,silica,2025-05-22T09:00+01:00,0.62,mg/m3,no,240,MDHS 101,W-1,Invented Lab,cutters,shift,1.24 for 240 min,
                X-2,BLAST,silica,2025-05-23T09:00+01:00,0.5,mg/m3,no,15,,,,,short-term,,
                """);
        FILES.put(FileKind.MEASURED_CONDITIONS, """
                source_id,task,at,quantity,value,told_claimed
                MC-1,BLAST,2025-07-04T08:00+01:00,wbgt,24.5,
                """);
    }

    private WholeSite() {}
}
