#!/bin/sh
# slurm_batch.sh FOLDER VRID SUITE OUT: a Slurm of one node in FOLDER, in it the job array of
# examples/nightly over two shards, then the collect. Exit 77: Slurm is not here or cannot start.
folder=$1 vrid=$2 suite=$3 out=$4
PATH=$PATH:/usr/sbin:/sbin
for program in munged mungekey slurmctld slurmd sbatch squeue sinfo; do
    command -v $program > /dev/null || { echo "no $program"; exit 77; }
done
[ "$(id -u)" = 0 ] || { echo "not root: slurmd cannot start jobs"; exit 77; }

stop() {
    for name in slurmd slurmctld munged; do
        [ -f "$folder/$name.pid" ] && kill "$(cat "$folder/$name.pid")" 2> /dev/null
    done
}
trap stop EXIT

host=$(hostname -s)
port=$((20000 + $$ % 20000))
mkdir -p "$folder/state" "$folder/spool"
export SLURM_CONF="$folder/slurm.conf"
cat > "$SLURM_CONF" << CONFIGURATION
ClusterName=vrid
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=$folder/munge.socket
CredType=cred/munge
SlurmctldPort=$port
SlurmdPort=$((port + 1))
SlurmctldPidFile=$folder/slurmctld.pid
SlurmdPidFile=$folder/slurmd.pid
SlurmctldLogFile=$folder/slurmctld.log
SlurmdLogFile=$folder/slurmd.log
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SwitchType=switch/none
MpiDefault=none
ReturnToService=2
SchedulerParameters=batch_sched_delay=0
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
NodeName=$host NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=INFINITE State=UP OverSubscribe=NO
CONFIGURATION

mungekey --create --keyfile="$folder/munge.key" &&
    munged --force --key-file="$folder/munge.key" --socket="$folder/munge.socket" \
        --pid-file="$folder/munged.pid" --log-file="$folder/munged.log" \
        --seed-file="$folder/munged.seed" 2> /dev/null &&
    slurmctld -c > "$folder/slurmctld.out" 2>&1 &&
    slurmd -c -N "$host" > "$folder/slurmd.out" 2>&1 ||
    { echo "Slurm does not start here"; tail -3 "$folder"/*.out "$folder"/*.log; exit 77; }
tries=0
until sinfo --noheader --format=%T 2> /dev/null | grep -q idle; do
    tries=$((tries + 1))
    [ $tries -gt 60 ] && { echo "the node does not come up"; tail -3 "$folder"/*.log; exit 77; }
    sleep 0.5
done

# The script of examples/nightly/README.md, of two tasks.
cat > "$folder/job.sh" << JOB
#!/bin/sh
#SBATCH --array=1-2
#SBATCH --cpus-per-task=1
#SBATCH --output=$folder/task-%a.txt
"$vrid" batch "$suite" --out "$out" --shard "\$SLURM_ARRAY_TASK_ID/2" --jobs 1
JOB
job=$(sbatch --parsable "$folder/job.sh") || exit 1
while squeue --noheader --jobs="$job" 2> /dev/null | grep -q .; do # --wait looks every ten seconds only
    sleep 0.2
done
cat "$folder"/task-*.txt
exec_status=0
"$vrid" batch --collect "$out" || exec_status=$?
exit $exec_status
